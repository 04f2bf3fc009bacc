package tracksoak.bench.drive.io;

import java.io.IOException;
import java.nio.ByteBuffer;

/** Hands every call on to another file; whoever extends it says what it does otherwise. */
public abstract class PassingFile implements DriveFile {

    /** The file behind this one. */
    protected final DriveFile file;

    protected PassingFile(DriveFile file) {
        this.file = file;
    }

    @Override
    public void write(ByteBuffer source, long position) throws IOException {
        file.write(source, position);
    }

    @Override
    public int read(ByteBuffer target, long position) throws IOException {
        return file.read(target, position);
    }

    @Override
    public void flush(boolean withMetadata) throws IOException {
        file.flush(withMetadata);
    }

    @Override
    public boolean extend(long bytes) throws IOException {
        return file.extend(bytes);
    }

    @Override
    public boolean lengthen(long bytes) throws IOException {
        return file.lengthen(bytes);
    }

    @Override
    public void giveBack(long from, long bytes) throws IOException {
        file.giveBack(from, bytes);
    }

    @Override
    public void trim(long bytes) throws IOException {
        file.trim(bytes);
    }

    @Override
    public long size() throws IOException {
        return file.size();
    }

    @Override
    public void close() throws IOException {
        file.close();
    }
}
