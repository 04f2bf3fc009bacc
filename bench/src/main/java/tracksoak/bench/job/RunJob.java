package tracksoak.bench.job;

import java.time.Instant;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.run.Run;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Times;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.verdict.ShowOdds;

/**
 * One run on one target: it is told while it goes on, its record is kept, and what it wrote on the drive is taken away,
 * whatever ends it. {@link #off} may be used by any thread at any time.
 */
public final class RunJob {

    private final JobListener listener;
    private final OffSwitch off;

    public RunJob(JobListener listener) {
        this(listener, new OffSwitch());
    }

    RunJob(JobListener listener, OffSwitch off) {
        this.listener = listener;
        this.off = off;
    }

    /** Ends the run soon, also one that has not begun. */
    public OffSwitch off() {
        return off;
    }

    /** Does the run. The record is on the host when it returns, the target is clean unless the drive hangs. */
    public RunRecord run(Order order, OpenTarget target, HostFacts host, RunFiles files) {
        Run started = null;
        boolean ended = false;
        try {
            started = begin(order, target, host, files);
            RunRecord record = ShowOdds.beside(started.call());
            listener.idle();
            keep(record, files);
            if (!started.driveHangs() && order.extras().keepsakeBytes() > 0) {
                target.leave(order, record, started.written());
            }
            ended = true;
            Fault.Kind atTheEnd = end(started, target);
            if (atTheEnd != null) {
                record = ShowOdds.beside(started.deletingFailed(atTheEnd));
                keep(record, files);
            }
            return record;
        } finally {
            listener.idle();
            if (!ended) {
                end(started, target);
            }
        }
    }

    private Fault.@Nullable Kind end(@Nullable Run started, OpenTarget target) {
        if (started != null && started.driveHangs() && !target.virtual()) {
            leaveHanging(target, listener);
            return null;
        }
        return target.clean();
    }

    /** What a run came to is not lost with its record. */
    private static void keep(RunRecord record, RunFiles files) {
        try {
            files.save(record);
        } catch (Problem notKept) {
            Verdict verdict = Objects.requireNonNull(record.verdict());
            throw new Problem(
                    notKept.kind(),
                    "the verdict is " + verdict.outcome().words() + " (" + verdict.sentence()
                            + "), and it was not kept",
                    "",
                    notKept.told(),
                    notKept.todo(),
                    notKept);
        }
    }

    private Run begin(Order order, OpenTarget target, HostFacts host, RunFiles files) {
        Times.refuseWrongClock(Instant.ofEpochMilli(target.epoch().epochMillis()));
        Run prepared;
        try {
            prepared = new Run(
                    order.request(target.facts()),
                    target,
                    host,
                    new RunKeeper(files, listener, SystemClocks.NANO, !target.virtual()));
        } catch (IllegalArgumentException unfit) {
            throw unfit(unfit);
        }
        off.begins(prepared::cancel);
        return prepared;
    }

    /** A session the recorder loop cannot be built for. */
    static Problem unfit(IllegalArgumentException why) {
        return Problem.askedWrong(
                String.valueOf(why.getMessage()), "choose another --chunk or --buffer, or another session");
    }

    /** A drive that does not come back from a call is touched no more, and the person told. */
    static void leaveHanging(OpenTarget target, JobListener listener) {
        listener.driveHangs();
        listener.trouble(Problem.cannot(
                "the drive does not come back from a call, so it is not touched any more; what was written is "
                        + "still in " + Inert.quoted(target.leftIn()),
                "unplug it, plug it in again, then: tracksoak clear PATH --yes"));
    }
}
