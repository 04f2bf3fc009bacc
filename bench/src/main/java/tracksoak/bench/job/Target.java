package tracksoak.bench.job;

import java.util.List;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Waiter;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;

/** What a run is made on, ready to be written to: a drive, what is known of it, and the time it lives in. */
public interface Target {

    Drive drive();

    DriveFacts facts();

    NanoClock clock();

    EpochClock epoch();

    Waiter waiter();

    /** Whether its time is virtual. */
    boolean virtual();

    /** Takes away what the run wrote. Not called while the drive hangs. */
    void clean();

    /** Leaves something of a run that has ended for a later one, where the order asks for it. Not called while it hangs. */
    default void leave(Order order, RunRecord record, List<WrittenFile> written) {}

    /** Where what the run wrote still lies, for the person to hear. */
    String leftIn();
}
