package tracksoak.report.roster;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.Problem;

class CoalescingSupplierTest {

    @Test
    void nobodyIsToldLessThanWhatWasSoWhenTheyCame() throws Exception {
        AtomicLong number = new AtomicLong();
        AtomicInteger underWay = new AtomicInteger();
        CoalescingSupplier ask = new CoalescingSupplier(() -> {
            assertThat(underWay.incrementAndGet()).isEqualTo(1);
            long now = number.get();
            underWay.decrementAndGet();
            return now;
        });
        ExecutorService crew = Executors.newFixedThreadPool(8);
        try {
            Callable<Boolean> asker = () -> {
                boolean fine = true;
                for (int i = 0; i < 5_000; i++) {
                    long before = number.incrementAndGet();
                    fine &= ask.get() >= before;
                }
                return fine;
            };
            List<Future<Boolean>> askers = new ArrayList<>();
            for (int i = 0; i < 8; i++) {
                askers.add(crew.submit(asker));
            }
            for (Future<Boolean> one : askers) {
                assertThat(one.get()).isTrue();
            }
        } finally {
            crew.shutdownNow();
        }
    }

    @Test
    void aFailureIsToldAsItIsAndTheNextQuestionIsAskedAnew() {
        AtomicInteger asked = new AtomicInteger();
        CoalescingSupplier ask = new CoalescingSupplier(() -> {
            if (asked.incrementAndGet() == 1) {
                throw new Problem(Problem.Kind.UNREACHABLE, "the roster", "", "away", "again");
            }
            return 7;
        });
        assertThatThrownBy(ask::get).isInstanceOf(Problem.class);
        assertThat(ask.get()).isEqualTo(7);
    }
}
