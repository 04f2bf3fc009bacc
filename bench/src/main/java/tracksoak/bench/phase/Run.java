package tracksoak.bench.phase;

import tracksoak.bench.drive.Drive;
import tracksoak.bench.recorder.EpochClock;
import tracksoak.bench.recorder.NanoClock;
import tracksoak.bench.recorder.Waiter;
import tracksoak.report.record.DriveFacts;
import tracksoak.report.record.HostFacts;
import tracksoak.report.record.RunRecord;

/** One run of a plan on one drive, from the first take to the verdict. */
public final class Run {

    /**
     * Prepares a run; nothing is touched before {@link #call}.
     *
     * @param virtual whether clock and waiter are virtual: everything then happens on the calling thread
     */
    public Run(
            RunRequest request,
            Drive drive,
            DriveFacts driveFacts,
            HostFacts hostFacts,
            NanoClock clock,
            EpochClock epoch,
            Waiter waiter,
            boolean virtual,
            RunListener listener) {}

    private volatile boolean cancelled;

    /** Does the whole run and returns the judged record. Never throws for what the drive does. */
    public RunRecord call() {
        if (!cancelled) {
            cancel();
        }
        throw new IllegalStateException("being built");
    }

    /** Asks the run to end soon, from any thread; {@link #call} then returns a record that says so. */
    public void cancel() {
        cancelled = true;
    }

    /** True if a call to the drive never came back, so that the drive must not be touched any more. */
    public boolean driveHangs() {
        return false;
    }
}
