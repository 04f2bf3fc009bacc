package tracksoak.bench.phase.run;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.ReadyFacts;

/**
 * What a run does and says besides its plan.
 *
 * @param tag what the crew calls the drive, null if nobody said
 * @param requalifies id of the earlier run whose plan is repeated, empty for none
 * @param keepsakeBytes bytes to be left on the drive for a later run, 0 for none
 * @param ready how long the drive took to become usable, null unless it was waited for
 * @param keptBytes room that is to stay free beside the session, in bytes; null if it is the run's own reserve
 * @param keepsakes what earlier runs left on the drive, to be read first
 */
public record RunExtras(
        @Nullable String tag,
        String requalifies,
        long keepsakeBytes,
        @Nullable ReadyFacts ready,
        @Nullable Long keptBytes,
        List<Keepsake> keepsakes) {

    /** Nothing. */
    public static final RunExtras NOTHING = new RunExtras(null, "", 0, null);

    public RunExtras {
        keepsakes = List.copyOf(keepsakes);
    }

    /** Without keepsakes to read. */
    public RunExtras(@Nullable String tag, String requalifies, long keepsakeBytes, @Nullable ReadyFacts ready) {
        this(tag, requalifies, keepsakeBytes, ready, null, List.of());
    }

    /** The same for a drive that was waited for. */
    public RunExtras ready(@Nullable ReadyFacts newReady) {
        return new RunExtras(tag, requalifies, keepsakeBytes, newReady, keptBytes, keepsakes);
    }

    /** The same with keepsakes to be read first. */
    public RunExtras reading(List<Keepsake> newKeepsakes) {
        return new RunExtras(tag, requalifies, keepsakeBytes, ready, keptBytes, newKeepsakes);
    }

    /** The same beside room that is to stay free when the session is recorded. */
    public RunExtras keeping(long bytes) {
        return new RunExtras(tag, requalifies, keepsakeBytes, ready, bytes, keepsakes);
    }
}
