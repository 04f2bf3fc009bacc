package tracksoak.bench.replay;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import tracksoak.profiles.Session;
import tracksoak.profiles.StreamSpec;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.verdict.Judge;

/** One way in which a run's service times may come again: its takes are played, and the whole is judged as a run. */
enum Scenario {
    CAUTIOUS_BY_THE_CLOCK(true, true),
    CAUTIOUS_BY_THE_BYTE(true, false),
    HOPEFUL_BY_THE_CLOCK(false, true),
    HOPEFUL_BY_THE_BYTE(false, false);

    private static final double LEAST_STALL_MS = 20;

    /** Closer to a limit than this nothing is promised: cautious figures are raised by so much. */
    private static final double CAUTIOUS_ALLOWANCE = 1.05;

    final boolean cautious;
    private final boolean byTheClock;

    Scenario(boolean cautious, boolean byTheClock) {
        this.cautious = cautious;
        this.byTheClock = byTheClock;
    }

    /** Plays one take for a session. */
    Playing play(Session session, RunRecord run, PhaseFacts take) {
        Tape tape = Objects.requireNonNull(Tape.of(take, run.method().chunkBytes()));
        return Playing.of(session, take.seconds(), run.method().alignmentBytes(), timing(tape, gapNs(run)));
    }

    /**
     * The same, and cautious ways also meet the longest stall of the fill or a close, if no take met one as long, at the
     * worst moment.
     */
    private Playing playWhole(Session session, RunRecord run, PhaseFacts take) {
        Playing played = play(session, run, take);
        Tape tape = Objects.requireNonNull(Tape.of(take, run.method().chunkBytes()));
        long stallNs = Math.max(longestInFill(run), longestInClose(run));
        if (!cautious || stallNs <= tape.longestStallNs()) {
            return played;
        }
        return Playing.of(
                session,
                take.seconds(),
                run.method().alignmentBytes(),
                new OneMore(timing(tape, gapNs(run)), played.peakAtNs(), stallNs + gapNs(run)));
    }

    private static long longestInFill(RunRecord run) {
        return run.phases().stream()
                .filter(phase -> phase.kind() == PhaseKind.FILL)
                .map(fill -> Tape.of(fill, run.method().chunkBytes()))
                .filter(Objects::nonNull)
                .mapToLong(Tape::longestStallNs)
                .max()
                .orElse(0);
    }

    /** What draining took longer than the take's own times explain. */
    private static long longestInClose(RunRecord run) {
        double longestMs = 0;
        double explainedMs = 0;
        for (PhaseFacts phase : run.phases()) {
            CloseFacts close = phase.close();
            if (phase.kind() == PhaseKind.TAKE) {
                explainedMs =
                        CAUTIOUS_BY_THE_CLOCK.play(run.session(), run, phase).drainMs();
            } else if (close != null) {
                longestMs = Math.max(longestMs, close.drainMs() - explainedMs);
            }
        }
        return longestMs > LEAST_STALL_MS ? Math.round(longestMs * 1e6) : 0;
    }

    private Timing timing(Tape tape, long gapNs) {
        return byTheClock ? new ByTheClock(tape, cautious, gapNs) : new ByTheByte(tape, cautious, gapNs);
    }

    /**
     * How long the drive may have stood still unseen before a write met it: one chunk period of the fastest stream. Staggered
     * streams leave shorter gaps, but only where all are alike.
     */
    private static long gapNs(RunRecord run) {
        long fastest = run.session().streams().stream()
                .mapToLong(StreamSpec::bytesPerSecond)
                .max()
                .orElse(1);
        return (long) (1e9 * run.method().chunkBytes() / fastest);
    }

    /** What the run would have said for the session if the times came in this way. */
    Verdict judge(Session session, RunRecord run) {
        List<PhaseFacts> phases = new ArrayList<>();
        double drainMs = 0;
        double longestMs = 0;
        for (PhaseFacts phase : run.phases()) {
            if (phase.kind() == PhaseKind.TAKE) {
                Playing playing = playWhole(session, run, phase);
                drainMs = playing.drainMs();
                Tape tape = Tape.of(phase, run.method().chunkBytes());
                longestMs = tape == null ? 0 : tape.longestOfAllNs() / 1e6;
                phases.add(playing.facts(phase, allowance()));
            } else if (phase.kind() == PhaseKind.CLOSE && phase.close() != null) {
                phases.add(closed(phase, phase.close(), session, run, drainMs, longestMs));
            } else {
                phases.add(phase);
            }
        }
        return Judge.judge(
                session,
                new RunRecord(
                        run.schema(),
                        run.id(),
                        run.tool(),
                        run.startedAt(),
                        run.endedAt(),
                        run.state(),
                        run.stateReason(),
                        run.seed(),
                        session,
                        run.plan(),
                        run.drive(),
                        run.tag(),
                        run.host(),
                        run.method(),
                        run.ready(),
                        phases,
                        null));
    }

    /** Cautious: as long as the run's, with its longest write once more; hopeful: less by the files that are not there. */
    private PhaseFacts closed(
            PhaseFacts phase, CloseFacts close, Session session, RunRecord run, double drainMs, double longestMs) {
        double share = cautious
                ? 1
                : session.streams().size() / (double) run.session().streams().size();
        double extraMs = cautious ? longestMs : 0;
        double drain = allowance() * drainMs;
        double headers = allowance() * share * close.headersMs();
        double flush = allowance() * (share * close.flushMs() + extraMs);
        double closing = allowance() * share * close.closeMs();
        double directory = allowance() * close.directoryMs();
        CloseFacts replayed = new CloseFacts(
                drain,
                headers,
                flush,
                closing,
                directory,
                drain + headers + flush + closing + directory,
                session.streams().size());
        return phase.but().seconds(replayed.totalMs() / 1e3).close(replayed).build();
    }

    private double allowance() {
        return cautious ? CAUTIOUS_ALLOWANCE : 1;
    }
}
