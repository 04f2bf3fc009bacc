package tracksoak.bench.recording;

import java.io.IOException;
import java.nio.ByteBuffer;
import tracksoak.bench.volume.ByteSource;
import tracksoak.bench.volume.Extent;
import tracksoak.bench.volume.VolumeFile;

/** A file inside an image or an unmounted device, read by the file system's own tables. One thread. */
public final class VolumeBytes implements FileBytes {

    private static final int MOST = 1 << 20;

    private final ByteSource source;
    private final VolumeFile file;
    private int extent;
    private long extentBegin;

    public VolumeBytes(ByteSource source, VolumeFile file) {
        this.source = source;
        this.file = file;
    }

    @Override
    public long sizeBytes() {
        return Math.min(file.sizeBytes(), file.allocatedBytes());
    }

    @Override
    public int read(ByteBuffer target, long offset) throws IOException {
        if (!target.hasRemaining()) {
            return 0;
        }
        if (offset >= sizeBytes()) {
            return -1;
        }
        if (offset < extentBegin) {
            extent = 0;
            extentBegin = 0;
        }
        Extent here = file.extents().get(extent);
        while (offset >= extentBegin + here.lengthBytes()) {
            extentBegin += here.lengthBytes();
            here = file.extents().get(++extent);
        }
        long inside = offset - extentBegin;
        int count = (int) Math.min(
                Math.min(target.remaining(), MOST), Math.min(here.lengthBytes() - inside, sizeBytes() - offset));
        if (offset >= file.validBytes()) {
            // given in advance and never written: a file system reads zeros there
            target.put(new byte[count]);
            return count;
        }
        int written = (int) Math.min(count, file.validBytes() - offset);
        target.put(source.read(here.startByte() + inside, written));
        return written;
    }

    @Override
    public void close() {
        // the device stays open for the others
    }
}
