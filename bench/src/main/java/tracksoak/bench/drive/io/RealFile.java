package tracksoak.bench.drive.io;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;

/**
 * One file on a real drive, by the JDK's own means. It stands apart because a call may block as long as the hardware likes: the thread that makes
 * it must not be interrupted, nor the file closed from elsewhere meanwhile, as both would block too.
 */
final class RealFile implements DriveFile {

    private final FileChannel channel;

    RealFile(FileChannel channel) {
        this.channel = channel;
    }

    @Override
    public void write(ByteBuffer source, long position) throws IOException {
        if (position < 0 || position % Writing.UNIT != 0 || source.remaining() % Writing.UNIT != 0) {
            throw unaligned(source, position);
        }
        long at = position;
        while (source.hasRemaining()) {
            at += channel.write(source, at);
        }
    }

    static IllegalArgumentException unaligned(ByteBuffer source, long position) {
        return new IllegalArgumentException("writes must be multiples of " + Writing.UNIT + " bytes, asked for "
                + source.remaining() + " bytes at " + position);
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
            if (total % Writing.UNIT != 0) {
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
