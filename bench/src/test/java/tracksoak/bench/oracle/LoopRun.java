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

    public static final long HANG_LIMIT_NS = 1_000_000_000_000L;

    private final StreamTable table;
    private final RecorderLedger ledger;
    private final RecorderLoop loop;
    private final VirtualClock clock;
    private final SimulatedDrive drive;
    private final StreamFiles files;
    private final long startNs;

    /** Plugs the drive in and opens the files. */
    public LoopRun(Session session, DriveModel model, double seconds) throws IOException {
        this(session, model, new VirtualClock(0), seconds);
    }

    private LoopRun(Session session, DriveModel model, VirtualClock clock, double seconds) throws IOException {
        this(session, model.plug(clock, HANG_LIMIT_NS), clock, seconds);
    }

    /** Opens the files on a drive that is plugged in and keeps this clock; the take begins after that. */
    public LoopRun(Session session, SimulatedDrive drive, VirtualClock clock, double seconds) throws IOException {
        this(session, drive, clock, seconds, false);
    }

    /** The same; audio comes in from "record" on, so the files are made in the take's own time. */
    public static LoopRun fromRecord(Session session, SimulatedDrive drive, VirtualClock clock, double seconds)
            throws IOException {
        return new LoopRun(session, drive, clock, seconds, true);
    }

    private LoopRun(Session session, SimulatedDrive drive, VirtualClock clock, double seconds, boolean fromRecord)
            throws IOException {
        this.drive = drive;
        this.clock = clock;
        table = new StreamTable(
                session.streams(),
                drive.alignmentBytes(),
                session.arrival(),
                session.bufferS(),
                Math.round(seconds * 1e9));
        files = new StreamFiles(drive, "take-1", 1, 1, table.streams(), session.fileLimitBytes());
        long recordNs = clock.nanoTime();
        for (int i = 0; i < table.streams(); i++) {
            files.begin(i);
        }
        drive.syncFolder();
        startNs = fromRecord ? recordNs : clock.nanoTime();
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

    /** Writes what is left in the buffer, rewrites, flushes and closes every file; returns how long it took, in ms. */
    public double close() throws IOException {
        long stopNs = clock.nanoTime();
        loop.drain();
        for (int stream = 0; stream < files.streams(); stream++) {
            files.rewriteHeader(stream);
        }
        for (int stream = 0; stream < files.streams(); stream++) {
            files.flushWhole(stream);
        }
        for (int stream = 0; stream < files.streams(); stream++) {
            files.close(stream);
        }
        drive.syncFolder();
        return (clock.nanoTime() - stopNs) / 1e6;
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
