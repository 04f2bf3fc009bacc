package tracksoak.bench.oracle;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.recorder.loop.FlushSchedule;
import tracksoak.bench.recorder.loop.InFlight;
import tracksoak.bench.recorder.loop.PlayerFigures;
import tracksoak.bench.recorder.loop.PlayerLedger;
import tracksoak.bench.recorder.loop.PlayerLoop;
import tracksoak.bench.recorder.loop.RecorderLedger;
import tracksoak.bench.recorder.loop.RecorderLoop;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.recorder.watch.DelayLog;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.Stamp;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.bench.stream.StreamReader;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.VirtualClock;

/**
 * A drive with one file per stream written one after another, to be played by the bench's loop or by brute force; where the
 * session has a mix, that is written meanwhile.
 */
final class PlayerRun implements BrutePlayer.Server, BruteQueue.Server {

    private static final int PIECE = 1 << 20;

    private final Session session;
    private final StreamTable table;
    private final VirtualClock clock = new VirtualClock(0);
    private final SimulatedDrive drive;
    private final List<WrittenFile> written = new ArrayList<>();
    private final List<DriveFile> open = new ArrayList<>();
    private final List<DriveFile> mixed = new ArrayList<>();
    private final long[] mixedBytes;
    private final ByteBuffer buffer = Stamp.ordered(ByteBuffer.allocate(4 << 20));

    PlayerRun(Session session, DriveModel model, double seconds) throws IOException {
        this.session = session;
        this.drive = model.plug(clock, LoopRun.HANG_LIMIT_NS);
        this.table = new StreamTable(
                session.streams(), Stamp.BLOCK, session.arrival(), session.bufferS(), Math.round(seconds * 1e9));
        this.mixedBytes = new long[session.mixStreams().size()];
        for (int stream = 0; stream < table.streams(); stream++) {
            String name = "stream-" + stream;
            long bytes = (table.totalBytes(stream) + Stamp.BLOCK - 1) / Stamp.BLOCK * Stamp.BLOCK;
            try (DriveFile file = drive.create(name)) {
                for (long at = 0; at < Stamp.BLOCK + bytes; at += PIECE) {
                    Stamp.header(buffer, 0, 1, stream, 1, at / Stamp.BLOCK);
                    int piece = (int) Math.min(PIECE, Stamp.BLOCK + bytes - at);
                    file.write(buffer.limit(piece).position(0), at);
                }
            }
            written.add(new WrittenFile(name, stream, 1, 0, bytes / Stamp.BLOCK, Stamp.BLOCK));
        }
    }

    /** Opens the files for brute force. */
    PlayerRun opened() throws IOException {
        for (WrittenFile file : written) {
            open.add(drive.open(file.name()));
        }
        for (int stream = 0; stream < mixedBytes.length; stream++) {
            mixed.add(drive.create("mix-" + stream));
            write(stream, Stamp.BLOCK);
        }
        return this;
    }

    /** What the books of both halves say, and how long it took until nothing of the mix was left to write. */
    record Played(PlayerFigures player, @Nullable TakeFigures mix, long drainedNs) {}

    /** Plays with the bench's own loop. */
    Played play() throws IOException {
        StreamReader reader = new StreamReader(drive, written, table.streams());
        for (int stream = 0; stream < table.streams(); stream++) {
            reader.begin(stream, 0);
        }
        long stallNs = TimeUnit.MILLISECONDS.toNanos(session.stallLimitMs());
        PlayerLedger ledger = new PlayerLedger(table, stallNs, HostWatch.NONE, new InFlight(table.lengthNs()));
        PlayerLoop.Mix mix = mixedBytes.length == 0 ? null : mix(stallNs);
        long startNs = clock.nanoTime();
        PlayerLoop loop =
                new PlayerLoop(ledger, table, reader, buffer, mix, clock, new DelayLog(), Stamp.BLOCK, startNs);
        long due = loop.step();
        while (due != PlayerLoop.OVER) {
            clock.waitUntil(due);
            due = loop.step();
        }
        ledger.settle(clock.nanoTime() - startNs);
        PlayerFigures figures = ledger.figures(table.lengthNs());
        if (mix == null) {
            return new Played(figures, null, clock.nanoTime() - startNs);
        }
        mix.books().settle(clock.nanoTime() - startNs);
        boolean more = true;
        while (more) {
            more = mix.loop().drainOne();
        }
        return new Played(figures, mix.books().figures(table.lengthNs()), clock.nanoTime() - startNs);
    }

    private PlayerLoop.Mix mix(long stallNs) throws IOException {
        StreamTable mixTable = new StreamTable(
                session.mixStreams(), Stamp.BLOCK, session.arrival(), session.bufferS(), table.lengthNs());
        StreamFiles files = new StreamFiles(drive, "mix", 2, 1, mixTable.streams(), session.fileLimitBytes());
        for (int stream = 0; stream < mixTable.streams(); stream++) {
            files.begin(stream);
        }
        long startNs = clock.nanoTime();
        RecorderLedger books = new RecorderLedger(mixTable, stallNs, HostWatch.NONE);
        return new PlayerLoop.Mix(
                books,
                new RecorderLoop(
                        books,
                        mixTable,
                        files,
                        new ChunkStamper(1, 1, drive.keepsBodies(), mixTable.largestChunkBytes(), Stamp.BLOCK),
                        new FlushSchedule(session.flushS(), mixTable.streams(), startNs),
                        clock,
                        new DelayLog(),
                        Stamp.BLOCK,
                        startNs));
    }

    @Override
    public long write(int stream, int bytes) throws IOException {
        long from = clock.nanoTime();
        mixed.get(stream).write(buffer.limit(bytes).position(0), mixedBytes[stream]);
        mixedBytes[stream] += bytes;
        return clock.nanoTime() - from;
    }

    @Override
    public long flush(int stream) throws IOException {
        long from = clock.nanoTime();
        mixed.get(stream).flush(false);
        return clock.nanoTime() - from;
    }

    @Override
    public long finish() {
        return 0;
    }

    @Override
    public void pause(long ns) {
        clock.advance(ns);
    }

    @Override
    public long read(int stream, long at, int bytes) throws IOException {
        long from = clock.nanoTime();
        open.get(stream).read(buffer.limit(bytes).position(0), Stamp.BLOCK + at);
        return clock.nanoTime() - from;
    }
}
