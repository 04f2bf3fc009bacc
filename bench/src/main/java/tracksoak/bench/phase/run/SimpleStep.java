package tracksoak.bench.phase.run;

import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/**
 * A step that is nothing more than one piece of work.
 *
 * @param expected how long it will take, as {@link Step#expectedS}
 * @param work does it, as {@link Step#go}
 */
record SimpleStep(PhaseKind kind, ToDoubleFunction<WorkAhead> expected, Supplier<? extends @Nullable PhaseFacts> work)
        implements Step {

    @Override
    public double expectedS(WorkAhead ahead) {
        return expected.applyAsDouble(ahead);
    }

    @Override
    public @Nullable PhaseFacts go() {
        return work.get();
    }
}
