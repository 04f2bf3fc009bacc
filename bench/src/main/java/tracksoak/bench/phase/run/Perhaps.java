package tracksoak.bench.phase.run;

import java.util.function.BooleanSupplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.WorkAhead;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/**
 * A step that is only done if what came before asks for it.
 *
 * @param asked whether it does; asked when its turn comes, and for the time left
 * @param step to be done then
 */
record Perhaps(BooleanSupplier asked, Step step) implements Step {

    @Override
    public PhaseKind kind() {
        return step.kind();
    }

    @Override
    public double expectedS(WorkAhead ahead) {
        return asked.getAsBoolean() ? step.expectedS(ahead) : 0;
    }

    @Override
    public @Nullable PhaseFacts go() {
        return asked.getAsBoolean() ? step.go() : null;
    }
}
