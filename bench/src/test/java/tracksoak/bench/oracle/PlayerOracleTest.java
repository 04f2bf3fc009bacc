package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.recorder.loop.PlayerFigures;

/**
 * The player's figures against brute force, for thousands of made-up drives and sessions: both play the same drive (same
 * seed), everything else is worked out twice. They must agree exactly, silence to the byte.
 */
class PlayerOracleTest {

    private static final long FIRST_SEED = 50_260_000L;

    /** 700 seeds in each build, 50,000 others at night. */
    @Test
    void playerAgreesWithBruteForce() throws IOException {
        compare(FIRST_SEED, 700);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void playerAgreesWithBruteForceAllNight() throws IOException {
        compare(FIRST_SEED + 1_000_000, 50_000);
    }

    private static void compare(long firstSeed, int count) throws IOException {
        int silent = 0;
        int stalled = 0;
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
            Trial trial = Trial.player(seed);
            BrutePlayer brute = new BrutePlayer(trial.session(), trial.seconds());
            brute.play(new PlayerRun(trial.session(), trial.drive(), trial.seconds()).opened());
            PlayerFigures figures = new PlayerRun(trial.session(), trial.drive(), trial.seconds())
                    .play()
                    .player();
            Same.books("seed " + seed + ": ", trial.session(), brute, figures);
            silent += brute.underruns() == 0 ? 0 : 1;
            stalled += brute.stalls.isEmpty() ? 0 : 1;
        }
        System.out.printf(
                Locale.ROOT,
                "players: seeds %d to %d, %d fell silent, %d stalled%n",
                firstSeed,
                firstSeed + count - 1,
                silent,
                stalled);
        assertThat(silent).as("trials that fell silent").isBetween(count / 10, count * 9 / 10);
        assertThat(stalled).as("trials with a stall").isBetween(count / 10, count * 9 / 10);
    }
}
