package tracksoak.bench.standin;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;

/** Keeps the bytes of a stand-in on virtual time in memory: headers and tables, for nobody writes audio there. */
final class MemoryStore implements Store {

    private static final int PAGE = 4096;

    private final long sizeBytes;
    private final Map<Long, byte[]> pages = new HashMap<>();

    MemoryStore(long sizeBytes) {
        this.sizeBytes = sizeBytes;
    }

    @Override
    public long sizeBytes() {
        return sizeBytes;
    }

    @Override
    public void read(ByteBuffer target, long offset) throws IOException {
        inside(offset, target.remaining());
        long at = offset;
        while (target.hasRemaining()) {
            int in = (int) (at % PAGE);
            int piece = Math.min(target.remaining(), PAGE - in);
            byte[] page = pages.get(at / PAGE);
            target.put(page == null ? new byte[PAGE] : page, in, piece);
            at += piece;
        }
    }

    @Override
    public void write(ByteBuffer source, long offset) throws IOException {
        inside(offset, source.remaining());
        long at = offset;
        while (source.hasRemaining()) {
            int in = (int) (at % PAGE);
            int piece = Math.min(source.remaining(), PAGE - in);
            source.get(pages.computeIfAbsent(at / PAGE, page -> new byte[PAGE]), in, piece);
            at += piece;
        }
    }

    @Override
    public void zero(long offset, long bytes) throws IOException {
        inside(offset, bytes);
        for (long page = offset / PAGE; page * PAGE < offset + bytes; page++) {
            byte[] kept = pages.get(page);
            if (kept != null) {
                int from = (int) Math.max(0, offset - page * PAGE);
                int to = (int) Math.min(PAGE, offset + bytes - page * PAGE);
                Arrays.fill(kept, from, to, (byte) 0);
            }
        }
    }

    @Override
    public void flush() {}

    @Override
    public boolean full(IOException failed) {
        return false;
    }

    @Override
    public void close() {}
}
