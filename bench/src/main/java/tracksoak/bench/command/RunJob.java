package tracksoak.bench.command;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.Run;
import tracksoak.bench.recorder.SystemClocks;
import tracksoak.report.record.HostFacts;
import tracksoak.report.record.RunRecord;

/**
 * One run on one target: it is shown while it goes on, its record is kept, and what it wrote on the drive is taken away,
 * whatever ends it. {@link #cancel} may be called by any thread at any time.
 */
final class RunJob {

    private final Console console;
    private final StopSignal stop;
    private boolean cancelled;
    private @Nullable Run run;

    RunJob(Console console, StopSignal stop) {
        this.console = console;
        this.stop = stop;
    }

    /** Ends the run soon, also one that has not begun. */
    synchronized void cancel() {
        cancelled = true;
        if (run != null) {
            run.cancel();
        }
    }

    synchronized boolean cancelled() {
        return cancelled;
    }

    /** Does the run. The record is on the host when it returns, the target is clean unless the drive hangs. */
    RunRecord run(Order order, Target target, Rooms rooms, RunFiles files) {
        RunWatch watch = new RunWatch(files, console, SystemClocks.NANO, !target.virtual());
        Run started = null;
        try {
            started = begin(order, target, rooms.host(), watch);
            RunRecord record = started.call();
            watch.end();
            files.save(record);
            if (!started.driveHangs() && order.besides().keepsakeBytes() > 0) {
                target.leave(order, record, started.written(), console, rooms);
            }
            return record;
        } finally {
            watch.end();
            if (started != null && started.driveHangs() && !target.virtual()) {
                stop.doNotWait();
                console.complain(
                        "the drive does not come back from a call, so it is not touched any more; what was written is "
                                + "still in " + Words.quoted(target.leftIn()),
                        "unplug it, plug it in again, then: tracksoak clear PATH --yes");
            } else {
                target.clean();
            }
        }
    }

    private synchronized Run begin(Order order, Target target, HostFacts host, RunWatch watch) {
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
            throw Complaint.usage(
                    String.valueOf(unfit.getMessage()), "choose another --chunk or --buffer, or another session");
        }
        run = prepared;
        if (cancelled) {
            prepared.cancel();
        }
        return prepared;
    }
}
