package tracksoak.bench.simulated;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.ClosedChannelException;
import java.nio.channels.NonWritableChannelException;
import tracksoak.bench.drive.io.DriveFile;

/** An open file of a {@link SimulatedDrive}. */
final class SimulatedFile implements DriveFile {

    private final SimulatedDrive drive;
    private final FileNode node;
    private final boolean writable;
    private boolean open = true;

    SimulatedFile(SimulatedDrive drive, FileNode node, boolean writable) {
        this.drive = drive;
        this.node = node;
        this.writable = writable;
    }

    @Override
    public void write(ByteBuffer source, long position) throws IOException {
        check();
        if (!writable) {
            throw new NonWritableChannelException();
        }
        drive.write(node, source, position);
    }

    @Override
    public int read(ByteBuffer target, long position) throws IOException {
        check();
        return drive.read(node, target, position);
    }

    @Override
    public void flush(boolean withMetadata) throws IOException {
        check();
        drive.flush(withMetadata);
    }

    @Override
    public boolean extend(long bytes) throws IOException {
        check();
        return drive.extend(node, bytes);
    }

    @Override
    public void trim(long bytes) throws IOException {
        check();
        drive.trim(node, bytes);
    }

    @Override
    public long size() throws IOException {
        check();
        return node.sizeBytes;
    }

    @Override
    public void close() throws IOException {
        if (open) {
            open = false;
            drive.closeFile();
        }
    }

    private void check() throws IOException {
        if (!open) {
            throw new ClosedChannelException();
        }
    }
}
