package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.FileBytes;
import tracksoak.bench.recording.RecordedFile;

/**
 * Reads the samples of a file from the first on, in a thread of its own, while what was read is looked at. Where the drive refuses, it
 * ends: whoever looks reads on by itself, and so meets the refusal. One thread but for its own.
 */
final class ReadAhead implements AutoCloseable {

    /** Of shorter files, in bytes, most is read before a thread has begun. */
    static final long LEAST = 2 << 20;

    private static final int PAGE = 4096;
    private static final int PIECES = 4;
    private static final int PIECE = 512 << 10;

    /** Bytes of memory it needs, from where a page begins. */
    static final int ROOM = PIECES * PIECE + PAGE;

    private static final long LOOK_MS = 100;

    /** Bytes that were read; {@code last} where no more come. */
    private record Filled(ByteBuffer bytes, boolean last) {}

    private final RecordedFile file;
    private final BooleanSupplier stop;
    private final BlockingQueue<ByteBuffer> empty = new ArrayBlockingQueue<>(PIECES + 1);
    private final BlockingQueue<Filled> filled = new ArrayBlockingQueue<>(PIECES + 1);
    private final CountDownLatch ended = new CountDownLatch(1);
    private volatile boolean closed;
    private Filled here = new Filled(ByteBuffer.allocate(0), false);

    /**
     * Begins to read.
     *
     * @param room {@value #ROOM} bytes, of use to one at a time
     * @param blockBytes what is asked for at once
     * @param stop asked while waiting for the drive
     */
    ReadAhead(RecordedFile file, ByteBuffer room, int blockBytes, BooleanSupplier stop) {
        this.file = file;
        this.stop = stop;
        // processors copy fastest where both places lie alike in their pages
        int begin = (int) (file.header().dataAt() % PAGE);
        int length = Math.max(1, PIECE / blockBytes) * blockBytes;
        for (int i = 0; i < PIECES; i++) {
            empty.add(room.slice(begin + i * PIECE, length).order(ByteOrder.LITTLE_ENDIAN));
        }
        Thread thread = new Thread(this::read, "tracksoak: reading ahead");
        thread.setDaemon(true);
        thread.start();
    }

    /**
     * The next bytes: as many as are asked for, fewer where its reading ended; they are there until the next call.
     *
     * @return null where no more come from here
     */
    @Nullable
    ByteBuffer next(int count) {
        if (!here.bytes().hasRemaining()) {
            if (here.last()) {
                return null;
            }
            if (here.bytes().capacity() > 0) {
                empty.add(here.bytes().clear());
            }
            Filled next = take();
            if (next == null || !next.bytes().hasRemaining()) {
                return null;
            }
            here = next;
        }
        ByteBuffer bytes = here.bytes();
        ByteBuffer next = bytes.slice(bytes.position(), Math.min(count, bytes.remaining()))
                .order(ByteOrder.LITTLE_ENDIAN);
        bytes.position(bytes.position() + next.remaining());
        return next;
    }

    private @Nullable Filled take() {
        try {
            Filled next = filled.poll(LOOK_MS, TimeUnit.MILLISECONDS);
            while (next == null && !stop.getAsBoolean()) {
                next = filled.poll(LOOK_MS, TimeUnit.MILLISECONDS);
            }
            return next;
        } catch (InterruptedException asked) {
            Thread.currentThread().interrupt();
            return null;
        }
    }

    private void read() {
        try (FileBytes bytes = file.source().open()) {
            long from = file.header().dataAt();
            long until = from + file.samples() * file.header().format().frameBytes();
            for (long at = from; at < until; ) {
                ByteBuffer piece = empty.take();
                if (closed) {
                    return;
                }
                piece.limit((int) Math.min(piece.capacity(), until - at));
                boolean all = filled(piece, bytes, at);
                at += piece.position();
                filled.add(new Filled(piece.flip(), !all || at == until));
                if (!all) {
                    return;
                }
            }
        } catch (IOException | RuntimeException refused) {
            filled.add(new Filled(ByteBuffer.allocate(0), true));
        } catch (InterruptedException none) {
            Thread.currentThread().interrupt();
        } finally {
            ended.countDown();
        }
    }

    /** Fills a piece, and says whether the drive gave all of it. */
    private static boolean filled(ByteBuffer piece, FileBytes bytes, long at) {
        try {
            while (piece.hasRemaining() && bytes.read(piece, at + piece.position()) > 0) {
                // goes on until it is full or the file ends
            }
            return !piece.hasRemaining();
        } catch (IOException | RuntimeException refused) {
            return false;
        }
    }

    /** Waits for the reading that is under way, unless all is to end: a drive that hangs may never give it. */
    @Override
    public void close() {
        closed = true;
        empty.add(ByteBuffer.allocate(0));
        try {
            while (!ended.await(LOOK_MS, TimeUnit.MILLISECONDS) && !stop.getAsBoolean()) {
                // goes on until one of both
            }
        } catch (InterruptedException asked) {
            Thread.currentThread().interrupt();
        }
    }
}
