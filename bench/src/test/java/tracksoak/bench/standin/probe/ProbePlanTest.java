package tracksoak.bench.standin.probe;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoublePredicate;
import org.junit.jupiter.api.Test;

class ProbePlanTest {

    private final ProbePlan plan = new ProbePlan(0.25, 20, 0.02);
    private final List<Double> tried = new ArrayList<>();

    private void ask(DoublePredicate loses) {
        for (OptionalDouble next = plan.next(); next.isPresent(); next = plan.next()) {
            tried.add(next.getAsDouble());
            if (loses.test(next.getAsDouble())) {
                plan.lost(next.getAsDouble());
            } else {
                plan.held(next.getAsDouble());
            }
        }
    }

    @Test
    void closesInOnTheBuffer() {
        ask(s -> s > 1.7);
        assertThat(plan.heldS().orElseThrow()).isBetween(1.65, 1.7);
        assertThat(plan.lostS().orElseThrow()).isBetween(1.7, 1.75);
    }

    @Test
    void aLossThatDoesNotComeBackBoundsNothing() {
        ask(s -> s > 5 || (s > 1.8 && tried.size() <= 6));
        assertThat(plan.heldS().orElseThrow()).isBetween(4.9, 5.0);
        assertThat(plan.lostS().orElseThrow()).isBetween(5.0, 5.1);
    }

    @Test
    void aTakeThatWasEndedNeedsNoSecond() {
        for (OptionalDouble next = plan.next(); next.isPresent(); next = plan.next()) {
            tried.add(next.getAsDouble());
            if (next.getAsDouble() > 0.375) {
                plan.surelyLost(next.getAsDouble());
            } else {
                plan.held(next.getAsDouble());
            }
        }
        assertThat(tried).filteredOn(s -> s == plan.lostS().orElseThrow()).hasSize(1);
    }
}
