package tracksoak.bench.tray;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.base.VirtualClock;

/** Who may work beside whom. Within one process the system's locks exclude each other as between processes, but are never shared. */
class TurnTest {

    @TempDir
    Path folder;

    private final VirtualClock clock = new VirtualClock(0);
    private final List<String> waits = new ArrayList<>();

    private @Nullable Turn take(@Nullable List<String> links, boolean alone, int looks) {
        AtomicInteger left = new AtomicInteger(looks);
        return Turn.take(
                new Turn.Wish(folder, links, alone, 2), clock, clock, () -> left.getAndDecrement() <= 0, waits::add);
    }

    @Test
    void whoeverIsFirstWorksAtOnce() {
        try (Turn turn = take(null, false, 5)) {
            assertThat(turn).isNotNull();
            assertThat(waits).isEmpty();
        }
    }

    @Test
    void aRunWhoseLinkIsNotKnownKeepsAllOthersWaitingUntilItEnds() {
        try (Turn first = take(null, false, 5)) {
            assertThat(first).isNotNull();
            assertThat(take(List.of("0000:00:14.0"), false, 5)).isNull();
            assertThat(waits).containsExactly("the runs before it");
        }
        try (Turn after = take(List.of("0000:00:14.0"), false, 5)) {
            assertThat(after).isNotNull();
        }
    }

    @Test
    void waitingCostsALookNowAndThen() {
        try (Turn first = take(List.of("a"), true, 5)) {
            assertThat(first).isNotNull();
            long beforeNs = clock.nanoTime();
            assertThat(take(List.of("a"), false, 10)).isNull();
            assertThat(clock.nanoTime() - beforeNs).isBetween(2_000_000_000L, 4_000_000_000L);
        }
    }

    @Test
    void aComputerCarriesARunForEveryTwoProcessors() {
        assertThat(Turn.sideBySide(1)).isOne();
        assertThat(Turn.sideBySide(2)).isOne();
        assertThat(Turn.sideBySide(8)).isEqualTo(4);
    }
}
