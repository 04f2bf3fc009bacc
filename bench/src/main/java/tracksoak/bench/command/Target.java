package tracksoak.bench.command;

import tracksoak.bench.drive.Drive;
import tracksoak.bench.recorder.EpochClock;
import tracksoak.bench.recorder.NanoClock;
import tracksoak.bench.recorder.Waiter;
import tracksoak.report.record.DriveFacts;

/** What a run is made on, ready to be written to: a drive, what is known of it, and the time it lives in. */
interface Target {

    Drive drive();

    DriveFacts facts();

    NanoClock clock();

    EpochClock epoch();

    Waiter waiter();

    /** Whether its time is virtual. */
    boolean virtual();

    /** Takes away what the run wrote. Not called while the drive hangs. */
    void clean();

    /** Where what the run wrote still lies, for the person to hear. */
    String leftIn();
}
