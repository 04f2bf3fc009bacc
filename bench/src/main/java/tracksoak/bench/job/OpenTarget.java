package tracksoak.bench.job;

import java.util.List;
import tracksoak.bench.phase.run.Target;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.facts.RunRecord;

/** A target that is ready to be written to, and takes away again what was. */
public interface OpenTarget extends Target {

    /** Takes away what the run wrote. Not called while the drive hangs. */
    void clean();

    /** Leaves something of a run that has ended for a later one, where the order asks for it. Not called while it hangs. */
    default void leave(Order order, RunRecord record, List<WrittenFile> written) {}

    /** Where what the run wrote still lies, for the person to hear. */
    String leftIn();
}
