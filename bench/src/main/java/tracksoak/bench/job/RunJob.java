package tracksoak.bench.job;

import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.qualify.RunWatch;
import tracksoak.bench.phase.run.Run;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.HostFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.verdict.ShowOdds;

/**
 * One run on one target: it is shown while it goes on, its record is kept, and what it wrote on the drive is taken away,
 * whatever ends it. {@link #off} may be used by any thread at any time.
 */
public final class RunJob {

    private final Console console;
    private final StopSignal stop;
    private final OffSwitch off = new OffSwitch();

    public RunJob(Console console, StopSignal stop) {
        this.console = console;
        this.stop = stop;
    }

    /** Ends the run soon, also one that has not begun. */
    public OffSwitch off() {
        return off;
    }

    /** Does the run. The record is on the host when it returns, the target is clean unless the drive hangs. */
    public RunRecord run(Order order, Target target, Rooms rooms, RunFiles files) {
        RunWatch watch = new RunWatch(files, console, SystemClocks.NANO, !target.virtual());
        Run started = null;
        try {
            started = begin(order, target, rooms.host(), watch);
            RunRecord record = ShowOdds.beside(started.call());
            watch.end();
            files.save(record);
            if (!started.driveHangs() && order.extras().keepsakeBytes() > 0) {
                target.leave(order, record, started.written(), console, rooms);
            }
            return record;
        } finally {
            watch.end();
            if (started != null && started.driveHangs() && !target.virtual()) {
                leaveHanging(target, console, stop);
            } else {
                target.clean();
            }
        }
    }

    private Run begin(Order order, Target target, HostFacts host, RunWatch watch) {
        Run prepared;
        try {
            prepared = new Run(
                    order.request(target.facts()),
                    target.drive(),
                    target.facts(),
                    host,
                    target.clock(),
                    target.epoch(),
                    target.waiter(),
                    target.virtual(),
                    watch);
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
    public static void leaveHanging(Target target, Console console, StopSignal stop) {
        stop.doNotWait();
        console.complain(
                "the drive does not come back from a call, so it is not touched any more; what was written is "
                        + "still in " + Inert.quoted(target.leftIn()),
                "unplug it, plug it in again, then: tracksoak clear PATH --yes");
    }
}
