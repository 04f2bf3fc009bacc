package tracksoak.bench.phase.run;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.drive.io.Drive.Counters;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.bench.recorder.loop.RecorderLedger;
import tracksoak.bench.recorder.loop.RecorderLoop;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.recorder.watch.HostMonitor;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.stream.Allotment;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RoundsFacts;
import tracksoak.report.record.facts.StartFacts;
import tracksoak.report.record.facts.StreamTotals;

/** One take in real time, and the close after it. */
public final class TakePhase implements Step {

    /** Part of the room that a take in rounds gives to its files; the rest is for the file system's own tables. */
    static final double USED_OF_ROOM = 0.98;

    /** A shorter stream is not cut in two. */
    private static final int LEAST_CHUNKS = 2;

    private final Bench bench;
    private final Session session;
    private final StreamTable table;
    private final StreamFiles files;
    private final double seconds;
    private final TakeGoal goal;
    private final boolean inRounds;
    private double room;
    private double usualRestS;
    private double idleBeforeS;
    private @Nullable Recording recording;

    /** A take of a fixed length. */
    public TakePhase(Bench bench, String label, int pass, double seconds) {
        this(bench, label, pass, seconds, seconds);
    }

    /**
     * A take that goes on for as long as it needs to tell.
     *
     * @param seconds it lasts at least
     * @param mostS it lasts at most, in s
     */
    TakePhase(Bench bench, String label, int pass, double seconds, double mostS) {
        this(bench, label, pass, seconds, mostS, false, Double.MAX_VALUE);
    }

    /**
     * A take that deletes its own oldest files where the drive has too little room for all of it.
     *
     * @param room there will be as was expected before the run, in bytes
     */
    static TakePhase inRounds(Bench bench, String label, int pass, double seconds, long room) {
        return new TakePhase(bench, label, pass, seconds, seconds, true, (double) room);
    }

    private TakePhase(
            Bench bench, String label, int pass, double seconds, double mostS, boolean inRounds, double room) {
        this.inRounds = inRounds;
        this.room = room;
        this.bench = bench;
        this.usualRestS = bench.request.plan().idleS();
        this.session = bench.request.session();
        this.seconds = seconds;
        this.goal = new TakeGoal(bench.request.session(), seconds, mostS);
        this.table = bench.table(mostS);
        this.files = bench.files(label, pass);
        if (bench.request.plan().changesFile() && !inRounds && changesFileInTheShow()) {
            bringInAChangeOfFile();
        }
    }

    /** The first of its run, before which the drive is left alone for longer if it may sleep. */
    TakePhase first() {
        usualRestS = bench.request.plan().firstIdleS();
        return this;
    }

    public StreamFiles files() {
        return files;
    }

    /** When the take began, on the clock; now if it has not. */
    public long startNs() {
        Recording taken = recording;
        return taken == null ? bench.clock.nanoTime() : taken.startNs;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.TAKE;
    }

    @Override
    public double expectedS(WorkAhead ahead) {
        double expected = goal.expectedS();
        ahead.leaves(Math.min(room, expected * session.bytesPerSecond()));
        return expected + usualRestS;
    }

    @Override
    public PhaseFacts go() {
        leaveAlone();
        bench.onDrive.opens(files);
        return take();
    }

    /** Nothing is asked of the drive for a while, so that one that sleeps when left alone is met asleep at "record". */
    private void leaveAlone() {
        double idleS = goal.restS(bench.done, usualRestS);
        if (idleS <= 0) {
            return;
        }
        PhaseFacts.Builder notes = bench.notes(PhaseKind.TAKE);
        long fromNs = bench.clock.nanoTime();
        long untilNs = fromNs + Math.round(idleS * 1e9);
        WatchedExecutor.Job wait = stop -> {
            while (!stop.getAsBoolean() && bench.clock.nanoTime() < untilNs) {
                RealTime.rest(bench, untilNs);
            }
        };
        // if a person stops it here, the take that follows says so
        bench.executor.work(List.of(wait), () -> bench.tell(() -> idle(untilNs), notes::build));
        idleBeforeS = (bench.clock.nanoTime() - fromNs) / 1e9;
    }

    /** Before "record" its time counts backwards. */
    private Bench.Now idle(long untilNs) {
        long nowNs = bench.clock.nanoTime();
        double left = Math.max(0, untilNs - nowNs) / 1e9 + seconds;
        return new Bench.Now((nowNs - untilNs) / 1e9, left, 0, 0, 0, 0, 0, 0, 0);
    }

    /** Records; afterwards what is left in the recorder's buffer is still to be written by {@link #close}. */
    public PhaseFacts take() {
        PhaseFacts.Builder notes = bench.notes(PhaseKind.TAKE);
        notes.plannedSeconds(seconds);
        PhaseFacts silent = bench.ask(PhaseKind.TAKE, stop -> fitToTheRoom());
        if (silent != null) {
            return silent;
        }
        goal.begin(bench.done);
        try (HostMonitor host = bench.monitor()) {
            Optional<Counters> before = bench.drive.counters();
            Recording now = new Recording(host);
            recording = now;
            WatchedExecutor.Outcome made =
                    bench.executor.work(List.of(now::makeFiles), () -> bench.tell(now::now, () -> now.soFar(notes)));
            WatchedExecutor.Outcome outcome = !made.done()
                    ? made
                    : bench.executor.work(now.jobs(), () -> {
                        now.endIfTold(notes);
                        bench.tell(now::now, () -> now.soFar(notes));
                    });
            now.end(outcome);
            now.note(notes);
            long bytes = now.ledger.figures(now.endNs).totals().writtenBytes();
            notes.complete(outcome.done());
            notes.fault(bench.fault(outcome, now.startNs, bytes));
            notes.device(bench.evidence(before, bytes));
            return notes.build();
        }
    }

    /** From "stop" to "safe to unplug". */
    public PhaseFacts close() {
        Recording taken = recording;
        if (taken == null) {
            throw new IllegalStateException("close before take");
        }
        return ClosePhase.close(
                bench,
                files,
                taken.overhangNs,
                taken.loops.get(0)::drain,
                () -> taken.figures().totals());
    }

    private void fitToTheRoom() throws IOException {
        if (goal.fixed() && !inRounds) {
            return;
        }
        long free = bench.drive.usableBytes() - bench.request.reserveBytes() - session.aheadBytes();
        if (inRounds) {
            allot(free);
        } else {
            int unit = bench.drive.roomUnitBytes();
            table.endBy(Math.round(1e9 * goal.within(longest -> Budget.takeBytes(session, longest, unit) <= free)));
        }
    }

    private boolean changesFileInTheShow() {
        long limit = session.fileLimitBytes();
        return session.streams().stream().anyMatch(stream -> stream.bytesPerSecond() * session.lengthS() > limit);
    }

    /**
     * Cuts every stream so that it changes to another file in the middle of the take: a session whose files never come to their
     * limit in so short a time may still do so in the show, and all tracks change at once.
     */
    private void bringInAChangeOfFile() {
        long middleNs = Math.round(seconds * 1e9 / 2);
        for (int stream = 0; stream < table.streams(); stream++) {
            long chunks = table.producedBytes(stream, middleNs) / table.chunkBytes(stream);
            if (chunks >= LEAST_CHUNKS) {
                files.cutFirst(stream, chunks * table.chunkBytes(stream));
            }
        }
    }

    /** Where the room is too small for the take, gives each stream its part of it. */
    private void allot(long bytes) throws IOException {
        int unit = bench.drive.roomUnitBytes();
        if (Budget.takeBytes(session, seconds, unit) <= bytes) {
            return;
        }
        room = bytes;
        for (int stream = 0; stream < table.streams(); stream++) {
            double share = table.rate(stream) / (double) session.bytesPerSecond();
            try {
                files.allot(
                        stream, Allotment.of((long) (bytes * USED_OF_ROOM * share), session.fileLimitBytes(), unit));
            } catch (IllegalArgumentException none) {
                throw new IOException("only " + bytes + " bytes are free for the take", none);
            }
        }
    }

    private @Nullable RoundsFacts rounds(List<RecorderLoop> loops) {
        return room == Double.MAX_VALUE
                ? null
                : new RoundsFacts(
                        (long) room,
                        files.deletedFiles(),
                        files.deletedBytes(),
                        loops.stream().mapToLong(RecorderLoop::deletingNs).sum() / 1e6);
    }

    /** The take while it goes on. */
    private final class Recording {
        private final HostMonitor host;
        private final long startNs;
        private final RecorderLedger ledger;
        private final List<ChunkStamper> stampers;
        private volatile List<RecorderLoop> loops = List.of();
        private volatile long filesNs;
        private long endNs;
        /** How long after the end of the take its last call came back: that call is waited for by whoever pressed stop. */
        private long overhangNs;

        private Recording(HostMonitor host) {
            this.host = host;
            this.stampers = RealTime.stampers(RealTime.loops(bench, table), bench, table);
            this.startNs = bench.clock.nanoTime();
            this.ledger = new RecorderLedger(
                    table,
                    TimeUnit.MILLISECONDS.toNanos(session.stallLimitMs()),
                    bench.virtual && !inRounds ? HostWatch.NONE : host.since(startNs));
        }

        /** The first thing a recorder does, while audio comes in already. */
        private void makeFiles(BooleanSupplier stop) throws IOException {
            for (int stream = 0; stream < table.streams() && !stop.getAsBoolean(); stream++) {
                long calledNs = calls();
                files.begin(stream);
                ledger.made(calledNs, sinceStart());
            }
            long calledNs = calls();
            bench.drive.syncFolder();
            ledger.made(calledNs, sinceStart());
            filesNs = sinceStart();
        }

        private long calls() {
            long calledNs = sinceStart();
            ledger.calls(calledNs);
            return calledNs;
        }

        private List<WatchedExecutor.Job> jobs() {
            loops = RealTime.recorders(stampers, bench, ledger, table, files, host, startNs);
            return loops.stream().map(this::job).toList();
        }

        private WatchedExecutor.Job job(RecorderLoop loop) {
            return stop -> {
                while (!stop.getAsBoolean()) {
                    long due = loop.step();
                    if (due == RecorderLoop.OVER) {
                        return;
                    }
                    RealTime.rest(bench, due);
                }
            };
        }

        private void end(WatchedExecutor.Outcome outcome) {
            endNs = Math.max(0, sinceStart());
            if (outcome.stuck() == null) {
                ledger.settle(endNs);
                overhangNs = Math.max(0, endNs - table.lengthNs());
                endNs -= overhangNs;
            } else {
                ledger.abandon(outcome.stuck().sinceNs() - startNs, endNs);
            }
        }

        private long sinceStart() {
            return bench.clock.nanoTime() - startNs;
        }

        private TakeFigures figures() {
            return ledger.figures(Math.max(0, sinceStart()));
        }

        private Bench.Now now() {
            long sinceNs = Math.max(0, sinceStart());
            return RealTime.now(sinceNs, goal.expectedS(), ledger.glance(sinceNs));
        }

        private void endIfTold(PhaseFacts.Builder notes) {
            long sinceNs = sinceStart();
            if (goal.isDue(sinceNs / 1e9) && goal.reached(sinceNs / 1e9, ledger.glance(sinceNs), () -> soFar(notes))) {
                ledger.endBy(sinceStart());
            }
        }

        private PhaseFacts soFar(PhaseFacts.Builder notes) {
            endNs = Math.max(0, sinceStart());
            ledger.settle(endNs);
            note(notes);
            return notes.build();
        }

        private void note(PhaseFacts.Builder notes) {
            notes.plannedSeconds(goal.expectedS());
            TakeFigures figures = ledger.figures(endNs);
            PacedNotes.paced(notes, table, figures, endNs);
            notes.streams(new StreamTotals(
                    figures.doneBytes(),
                    figures.lostMs(),
                    figures.peakBacklogMs(),
                    IntStream.range(0, table.streams()).mapToObj(files::files).toList()));
            notes.start(new StartFacts(
                    idleBeforeS, filesNs / 1e6, session.spaceInAdvanceBytes() > 0 ? files.spaceGiven() : null));
            notes.rounds(rounds(loops));
            notes.hostDelays(host.facts());
        }
    }
}
