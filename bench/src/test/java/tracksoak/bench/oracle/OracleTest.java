package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.recorder.loop.TakeFigures;

/**
 * The recorder loop's figures against the brute-force queue, for thousands of made-up drives and sessions. Both play the
 * same drive (same seed), everything else is worked out twice. They must agree exactly.
 */
class OracleTest {

    private static final long FIRST_SEED = 20_260_000L;

    /** 700 seeds in each build, 50,000 others at night. */
    @Test
    void loopAgreesWithTheBruteForceQueue() throws IOException {
        compare(FIRST_SEED, 700);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void loopAgreesWithTheBruteForceQueueAllNight() throws IOException {
        compare(FIRST_SEED + 1_000_000, 50_000);
    }

    private static void compare(long firstSeed, int count) throws IOException {
        int lossy = 0;
        int stalled = 0;
        int mixed = 0;
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
            Trial trial = Trial.of(seed);
            BruteQueue queue = new BruteQueue(trial.session(), trial.seconds());
            queue.play(new DriveServer(trial.drive(), trial.session().streams().size()).synced());
            TakeFigures figures = new LoopRun(trial.session(), trial.drive(), trial.seconds()).play();
            Same.books("seed " + seed + ": ", queue, figures);
            lossy += queue.losses.isEmpty() ? 0 : 1;
            stalled += queue.stalls.isEmpty() ? 0 : 1;
            mixed += trial.session().groups().size() > 1 ? 1 : 0;
        }
        System.out.printf(
                Locale.ROOT,
                "oracle: seeds %d to %d, %d lost audio, %d stalled, %d with streams of different rates%n",
                firstSeed,
                firstSeed + count - 1,
                lossy,
                stalled,
                mixed);
        assertThat(lossy).as("trials that lost audio").isBetween(count / 10, count * 9 / 10);
        assertThat(stalled).as("trials with a stall").isBetween(count / 10, count * 9 / 10);
        assertThat(mixed).as("trials with streams of different rates").isGreaterThan(count / 10);
    }
}
