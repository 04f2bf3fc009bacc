package tracksoak.bench.drive.io;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;

/**
 * One file on a real drive. It stands apart because a call may block as long as the hardware likes: the thread that makes
 * it must not be interrupted, nor the file closed from elsewhere meanwhile, as both would block too.
 */
final class RealFile implements DriveFile {

    private final FileChannel channel;
    private final int alignment;

    RealFile(FileChannel channel, int alignment) {
        this.channel = channel;
        this.alignment = alignment;
    }

    @Override
    public void write(ByteBuffer source, long position) throws IOException {
        if (position < 0 || position % alignment != 0 || source.remaining() % alignment != 0) {
            throw new IllegalArgumentException("writes must be multiples of " + alignment + " bytes, asked for "
                    + source.remaining() + " bytes at " + position);
        }
        long at = position;
        while (source.hasRemaining()) {
            at += channel.write(source, at);
        }
    }

    @Override
    public int read(ByteBuffer target, long position) throws IOException {
        int total = 0;
        while (target.hasRemaining()) {
            int got = channel.read(target, position + total);
            if (got <= 0) {
                break;
            }
            total += got;
            if (total % alignment != 0) {
                // a direct read ends unaligned only at the end of the file, and cannot go on from there
                break;
            }
        }
        return total;
    }

    @Override
    public void flush(boolean withMetadata) throws IOException {
        channel.force(withMetadata);
    }

    @Override
    public long size() throws IOException {
        return channel.size();
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}
