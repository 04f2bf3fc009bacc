package tracksoak.bench.tray;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.phase.run.Traffic;
import tracksoak.profiles.base.Seeded;
import tracksoak.profiles.base.VirtualClock;

/** Who may work beside whom. Within one process the system's locks exclude each other as between processes. */
class TurnTest {

    private static final List<String> HUB = List.of("0000:00:14.0");

    @TempDir
    Path folder;

    private final VirtualClock clock = new VirtualClock(0);
    private final List<String> waits = new ArrayList<>();

    private final List<Turn> taken = new ArrayList<>();

    @AfterEach
    void giveBack() {
        taken.forEach(Turn::close);
    }

    private @Nullable Turn take(@Nullable List<String> links, double share) {
        return take(links, share, false, 8);
    }

    /** Gives up where it would have to wait. */
    private @Nullable Turn take(@Nullable List<String> links, double share, boolean alone, int processors) {
        AtomicInteger waited = new AtomicInteger();
        Turn turn = Turn.take(
                new Turn.Wish(folder, links, alone, share, processors),
                clock,
                clock,
                () -> waited.get() > 0,
                told(waited));
        if (turn != null) {
            taken.add(turn);
        }
        return turn;
    }

    private Turn taken(@Nullable List<String> links, double share) {
        return Objects.requireNonNull(take(links, share));
    }

    private Turn ofProcessors(String link, int processors) {
        return Objects.requireNonNull(take(List.of(link), 1, false, processors));
    }

    private Consumer<String> told(AtomicInteger waited) {
        return what -> {
            waits.add(what);
            waited.incrementAndGet();
        };
    }

    /** Gives up where it would have to wait. */
    private boolean becomes(Turn turn, Traffic traffic) {
        AtomicInteger waited = new AtomicInteger();
        return turn.becomes(traffic, () -> waited.get() > 0, told(waited));
    }

    @Test
    void whoeverIsFirstWorksAtOnce() {
        assertThat(take(null, 1)).isNotNull();
        assertThat(waits).isEmpty();
    }

    @Test
    void aRunWhoseLinkIsNotKnownKeepsAllOthersWaitingUntilItEnds() {
        Turn first = taken(null, 1);
        assertThat(becomes(first, Traffic.FLAT_OUT)).isTrue();
        assertThat(becomes(first, Traffic.AT_PACE)).isTrue();
        assertThat(take(HUB, 0.1)).isNull();
        assertThat(waits).contains("a run to end: this computer carries no more at once");
        first.close();
        assertThat(take(HUB, 0.1)).isNotNull();
        assertThat(take(null, 1)).isNull();
    }

    @Test
    void takesShareALinkForAsLongAsItCarriesThemAll() {
        Turn one = taken(HUB, 0.334);
        taken(HUB, 0.334);
        assertThat(take(HUB, 0.334)).isNull();
        assertThat(waits).containsExactly("other drives on its link");
        Turn little = taken(HUB, 0.31);
        assertThat(take(List.of("0000:3b:00.0"), 1)).isNotNull();
        little.close();
        one.close();
        assertThat(take(HUB, 0.334)).isNotNull();
    }

    @Test
    void aLinkThatIsTooSlowOrOfNoKnownSpeedIsNotShared() {
        for (double share : new double[] {1, 3.4}) {
            Turn one = taken(HUB, share);
            assertThat(take(HUB, 0.01)).isNull();
            one.close();
        }
    }

    @Test
    void whoFillsWaitsForTheTakesAndKeepsOthersFromTheLink() {
        Turn filling = taken(HUB, 0.2);
        Turn taking = taken(HUB, 0.2);
        assertThat(becomes(filling, Traffic.FLAT_OUT)).isFalse();
        assertThat(waits).containsExactly("the takes on its link to end");
        taking.close();
        assertThat(becomes(filling, Traffic.FLAT_OUT)).isTrue();
        assertThat(take(HUB, 0.01)).isNull();
    }

    @Test
    void aTakeFollowsItsFillAtOnceWhoeverElseWaits() {
        Turn first = taken(HUB, 0.2);
        Turn second = taken(HUB, 0.2);
        assertThat(becomes(second, Traffic.FLAT_OUT)).isFalse();
        assertThat(becomes(first, Traffic.FLAT_OUT))
                .as("the second has the right")
                .isFalse();
        assertThat(becomes(second, Traffic.FLAT_OUT)).isTrue();
        assertThat(becomes(second, Traffic.AT_PACE)).isTrue();
        assertThat(becomes(first, Traffic.FLAT_OUT))
                .as("beside a take that follows")
                .isFalse();
        assertThat(becomes(second, Traffic.FLAT_OUT)).isTrue();
        second.close();
        assertThat(becomes(first, Traffic.FLAT_OUT)).isTrue();
    }

    @Test
    void aComputerCarriesATakeForEachProcessorAndAFillForEveryTwo() {
        Turn one = ofProcessors("a", 2);
        Turn two = ofProcessors("b", 2);
        assertThat(take(List.of("c"), 1, false, 2)).isNull();
        assertThat(becomes(one, Traffic.FLAT_OUT)).isFalse();
        two.close();
        assertThat(becomes(one, Traffic.FLAT_OUT)).isTrue();
        assertThat(take(List.of("b"), 1, false, 2)).isNull();
        one.close();
        assertThat(becomes(ofProcessors("a", 1), Traffic.FLAT_OUT))
                .as("of one processor")
                .isTrue();
    }

    @Test
    void waitingCostsALookNowAndThen() {
        assertThat(take(HUB, 1, true, 8)).isNotNull();
        long beforeNs = clock.nanoTime();
        AtomicInteger left = new AtomicInteger(5);
        assertThat(Turn.take(
                        new Turn.Wish(folder, HUB, false, 0.1, 8),
                        clock,
                        clock,
                        () -> left.getAndDecrement() <= 0,
                        waits::add))
                .isNull();
        assertThat(clock.nanoTime() - beforeNs).isBetween(1_200_000_000L, 2_000_000_000L);
        assertThat(waits).hasSize(1);
    }

    /** A drive of a random tray. */
    private final class Run {
        private final int link;
        private final double share;
        private final List<Traffic> steps;
        private @Nullable Turn turn;
        private @Nullable Traffic now;
        private int next;

        private Run(Random random) {
            link = random.nextInt(3);
            share = 0.05 + random.nextDouble();
            steps = random.nextBoolean()
                    ? List.of(Traffic.AT_PACE, Traffic.FLAT_OUT)
                    : List.of(Traffic.AT_PACE, Traffic.FLAT_OUT, Traffic.AT_PACE, Traffic.FLAT_OUT);
        }

        /** One try to go on to the next step; the drive whose link is 0 does not know it. */
        private void goOn() {
            now = null;
            Turn mine = turn;
            if (next == steps.size()) {
                Objects.requireNonNull(mine).close();
                next++;
            } else if (mine == null) {
                turn = take(link == 0 ? null : List.of("link-" + link), share, false, 3);
            } else if (becomes(mine, steps.get(next))) {
                now = steps.get(next++);
            }
        }

        private boolean over() {
            return next > steps.size();
        }
    }

    /** Whatever the order of events, nobody works beside a fill, no link carries too much, and all come to their end. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void manyRunsNeverMeetWhereTheyMustNotAndAllEnd(long seed) {
        Random random = Seeded.random(seed);
        List<Run> runs = new ArrayList<>();
        for (int i = 0; i < 7; i++) {
            runs.add(new Run(random));
        }
        int tries = 0;
        for (; tries < 20_000 && !runs.stream().allMatch(Run::over); tries++) {
            Run run = runs.get(random.nextInt(runs.size()));
            if (!run.over()) {
                run.goOn();
            }
            List<Run> working = runs.stream().filter(one -> one.now != null).toList();
            for (Run one : working) {
                double claimed = 0;
                for (Run other : working) {
                    if (other != one && (one.link == 0 || other.link == 0)) {
                        throw new AssertionError("beside a run whose link is not known");
                    }
                    if (other != one && other.link == one.link && one.now == Traffic.FLAT_OUT) {
                        throw new AssertionError("beside a fill");
                    }
                    claimed += other.link == one.link ? Math.min(1, other.share) : 0;
                }
                assertThat(claimed).isLessThanOrEqualTo(1);
            }
        }
        assertThat(runs).as("after " + tries + " tries").allMatch(Run::over);
    }
}
