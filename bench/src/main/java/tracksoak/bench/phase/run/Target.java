package tracksoak.bench.phase.run;

import java.util.OptionalDouble;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.recorder.watch.SleepProbe;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;

/** What a run or drill is made on: a drive, what is known of it, and the time it lives in. */
public interface Target {

    Drive drive();

    DriveFacts facts();

    NanoClock clock();

    EpochClock epoch();

    Waiter waiter();

    /** Whether clock and waiter are virtual: everything then happens on the calling thread, with one writer. */
    boolean virtual();

    /** How to tell whether the computer slept. */
    default SleepProbe sleep() {
        return virtual() ? OptionalDouble::empty : SleepProbe.ofThisSystem();
    }
}
