package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/**
 * One thing a run does in its turn. {@link Program} lays the steps of a run out; {@link Run} does one after the other
 * until one finds a fault. Every call comes from the run's own thread.
 */
interface Step {

    /** What is shown meanwhile. */
    PhaseKind kind();

    /** What it asks of the drive's link. */
    default Traffic traffic() {
        return Traffic.of(kind());
    }

    /**
     * How long it will take, in s; negative if that cannot be told yet. Asked before it begins, and while it goes on for
     * what it adds to the drive alone.
     *
     * @param ahead knows how fast the drive has worked so far; the step adds to it what it will leave to be read back
     */
    double expectedS(WorkAhead ahead);

    /** Does it, and says what it found; null if it leaves no phase in the record. Never throws for what the drive does. */
    @Nullable
    PhaseFacts go();
}
