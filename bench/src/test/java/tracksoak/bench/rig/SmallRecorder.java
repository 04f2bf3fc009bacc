package tracksoak.bench.rig;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import tracksoak.profiles.base.SystemClocks;

/** A recorder in real time: chunks of all tracks fall due together, one writer, a ring of so many chunks per track; what does not fit is dropped. */
final class SmallRecorder implements AutoCloseable {

    private final long chunkNs;
    private final int bufferChunks;
    private final ByteBuffer chunk;
    private final List<FileChannel> files = new ArrayList<>();
    private final Thread thread = new Thread(this::run, "small recorder");
    private volatile boolean stopped;
    private volatile String failed = "";

    SmallRecorder(Path folder, int tracks, int chunkBytes, long bytesPerSecond, int bufferChunks) throws IOException {
        this.chunkNs = chunkBytes * 1_000_000_000L / bytesPerSecond;
        this.bufferChunks = bufferChunks;
        byte[] noise = new byte[chunkBytes];
        new Random(3).nextBytes(noise);
        this.chunk = ByteBuffer.allocateDirect(chunkBytes).put(noise).flip();
        for (int i = 0; i < tracks; i++) {
            files.add(FileChannel.open(
                    folder.resolve("T" + (10 + i) + ".RAW"),
                    StandardOpenOption.CREATE_NEW,
                    StandardOpenOption.WRITE,
                    StandardOpenOption.DSYNC));
        }
        thread.start();
    }

    private void run() {
        long startNs = SystemClocks.NANO.nanoTime();
        int tracks = files.size();
        long[] next = new long[tracks];
        try {
            while (!stopped) {
                int behind = 0;
                for (int i = 1; i < tracks; i++) {
                    behind = next[i] < next[behind] ? i : behind;
                }
                SystemClocks.PARK.waitUntil(startNs + (next[behind] + 1) * chunkNs);
                files.get(behind).write(chunk.duplicate());
                long nowChunk = (SystemClocks.NANO.nanoTime() - startNs) / chunkNs;
                next[behind]++;
                long dropped = Math.max(0, nowChunk - (next[behind] - 1 + bufferChunks) + 1);
                if (nowChunk >= next[behind] - 1 + bufferChunks) {
                    // chunks that began while the ring was full were never kept; those before them are still there
                    next[behind] += dropped;
                }
            }
        } catch (IOException e) {
            failed = String.valueOf(e.getMessage());
        }
    }

    String failed() {
        return failed;
    }

    @Override
    public void close() {
        stopped = true;
        try {
            thread.join();
            for (FileChannel file : files) {
                file.close();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (IOException e) {
            failed = String.valueOf(e.getMessage());
        }
    }
}
