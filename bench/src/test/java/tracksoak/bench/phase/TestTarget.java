package tracksoak.bench.phase;

import java.util.OptionalDouble;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.phase.run.Target;
import tracksoak.bench.recorder.watch.SleepProbe;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;

/** A target of a test, put together of its parts. */
public record TestTarget(
        Drive drive,
        DriveFacts facts,
        NanoClock clock,
        EpochClock epoch,
        Waiter waiter,
        boolean virtual,
        SleepProbe sleep)
        implements Target {

    public TestTarget(
            Drive drive, DriveFacts facts, NanoClock clock, EpochClock epoch, Waiter waiter, boolean virtual) {
        this(drive, facts, clock, epoch, waiter, virtual, virtual ? OptionalDouble::empty : SleepProbe.ofThisSystem());
    }

    /** A drive on virtual time. */
    public static TestTarget onVirtualTime(Drive drive, DriveFacts facts, VirtualClock clock) {
        return new TestTarget(drive, facts, clock, clock, clock, true);
    }
}
