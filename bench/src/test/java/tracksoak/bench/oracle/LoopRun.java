package tracksoak.bench.oracle;

import java.io.IOException;
import java.util.concurrent.TimeUnit;
import tracksoak.bench.recorder.loop.FlushSchedule;
import tracksoak.bench.recorder.loop.RecorderLedger;
import tracksoak.bench.recorder.loop.RecorderLoop;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.recorder.watch.DelayLog;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.VirtualClock;

/** The recorder loop of the bench on a simulated drive, stepped on virtual time as a take steps it. */
public final class LoopRun {

    static final long HANG_LIMIT_NS = 1_000_000_000_000L;

    private final StreamTable table;
    private final RecorderLedger ledger;
    private final RecorderLoop loop;
    private final VirtualClock clock = new VirtualClock(0);
    private final long startNs;

    /** Plugs the drive in and opens the files. */
    public LoopRun(Session session, DriveModel model, double seconds) throws IOException {
        SimulatedDrive drive = model.plug(clock, HANG_LIMIT_NS);
        table = new StreamTable(
                session.streams(),
                drive.alignmentBytes(),
                session.arrival(),
                session.bufferS(),
                Math.round(seconds * 1e9));
        StreamFiles files = new StreamFiles(drive, "take-1", 1, 1, table.streams(), session.fileLimitBytes());
        for (int i = 0; i < table.streams(); i++) {
            files.begin(i);
        }
        drive.syncFolder();
        startNs = clock.nanoTime();
        ledger = new RecorderLedger(table, TimeUnit.MILLISECONDS.toNanos(session.stallLimitMs()), HostWatch.NONE);
        loop = new RecorderLoop(
                ledger,
                table,
                files,
                new ChunkStamper(1, 1, drive.keepsBodies(), table.largestChunkBytes(), drive.alignmentBytes()),
                new FlushSchedule(session.flushS(), table.streams(), startNs),
                clock,
                new DelayLog(),
                drive.alignmentBytes(),
                startNs);
    }

    /** Plays the take to its end and returns what the books say then. */
    public TakeFigures play() throws IOException {
        long due = loop.step();
        while (due != RecorderLoop.OVER) {
            clock.waitUntil(due);
            due = loop.step();
        }
        ledger.settle(sinceStartNs());
        return ledger.figures(table.lengthNs());
    }

    /**
     * Longest time between two moments at which the loop had nothing to do, in ns. Plays the take to its end.
     */
    long longestWorkNs() throws IOException {
        long longest = 0;
        long from = clock.nanoTime();
        long due = loop.step();
        while (due != RecorderLoop.OVER) {
            if (due > clock.nanoTime()) {
                longest = Math.max(longest, clock.nanoTime() - from);
                clock.waitUntil(due);
                from = due;
            }
            due = loop.step();
        }
        return longest;
    }

    private long sinceStartNs() {
        return clock.nanoTime() - startNs;
    }
}
