package tracksoak.bench.oracle;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import tracksoak.bench.drive.DriveFile;
import tracksoak.bench.recorder.DelayLog;
import tracksoak.bench.recorder.HostWatch;
import tracksoak.bench.recorder.PlayerFigures;
import tracksoak.bench.recorder.PlayerLedger;
import tracksoak.bench.recorder.PlayerLoop;
import tracksoak.bench.recorder.StreamTable;
import tracksoak.bench.recorder.VirtualClock;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.stream.Stamp;
import tracksoak.bench.stream.StreamReader;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.Session;

/** A drive with one file per stream written one after another, to be played by the bench's loop or by brute force. */
final class PlayerRun implements BrutePlayer.Server {

    private static final int PIECE = 1 << 20;

    private final Session session;
    private final StreamTable table;
    private final VirtualClock clock = new VirtualClock(0);
    private final SimulatedDrive drive;
    private final List<WrittenFile> written = new ArrayList<>();
    private final List<DriveFile> open = new ArrayList<>();
    private final ByteBuffer buffer = Stamp.ordered(ByteBuffer.allocate(4 << 20));

    PlayerRun(Session session, DriveModel model, double seconds) throws IOException {
        this.session = session;
        this.drive = model.plug(clock, LoopRun.HANG_LIMIT_NS);
        this.table = new StreamTable(
                session.streams(), Stamp.BLOCK, session.arrival(), session.bufferS(), Math.round(seconds * 1e9));
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
        return this;
    }

    /** Plays with the bench's own loop. */
    PlayerFigures play() throws IOException {
        StreamReader reader = new StreamReader(drive, written, table.streams());
        for (int stream = 0; stream < table.streams(); stream++) {
            reader.begin(stream, 0);
        }
        long startNs = clock.nanoTime();
        PlayerLedger ledger =
                new PlayerLedger(table, TimeUnit.MILLISECONDS.toNanos(session.stallLimitMs()), HostWatch.NONE);
        PlayerLoop loop =
                new PlayerLoop(ledger, table, reader, buffer, null, clock, new DelayLog(), Stamp.BLOCK, startNs);
        long due = loop.step();
        while (due != PlayerLoop.OVER) {
            clock.waitUntil(due);
            due = loop.step();
        }
        ledger.settle(clock.nanoTime() - startNs);
        return ledger.figures(table.lengthNs());
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
