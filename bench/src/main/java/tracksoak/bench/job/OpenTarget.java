package tracksoak.bench.job;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.run.Target;
import tracksoak.bench.stream.WrittenFile;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.RunRecord;

/** A target that is ready to be written to, and takes away again what was. */
public interface OpenTarget extends Target {

    /**
     * Takes away what the run wrote. Not called while the drive hangs.
     *
     * @return what the drive did instead of that, null where it did nothing or somebody else kept it from it
     */
    Fault.@Nullable Kind clean();

    /** Leaves something of a run that has ended for a later one, where the order asks for it. Not called while it hangs. */
    default void leave(Order order, RunRecord record, List<WrittenFile> written) {}

    /** Where what the run wrote still lies, for the person to hear. */
    String leftIn();
}
