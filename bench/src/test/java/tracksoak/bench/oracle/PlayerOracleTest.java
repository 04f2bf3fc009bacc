package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.recorder.PlayerFigures;
import tracksoak.report.record.PhaseFacts;
import tracksoak.report.record.Stall;

/**
 * The player's figures against brute force, for thousands of made-up drives and sessions: both play the same drive (same
 * seed), everything else is worked out twice. They must agree exactly, silence to the byte.
 */
class PlayerOracleTest {

    private static final long FIRST_SEED = 50_260_000L;

    @Test
    void playerAgreesWithBruteForce() throws IOException {
        compare(FIRST_SEED, 2_000);
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
            PlayerFigures figures = new PlayerRun(trial.session(), trial.drive(), trial.seconds()).play();
            assertSame(trial, brute, figures);
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

    private static void assertSame(Trial trial, BrutePlayer brute, PlayerFigures figures) {
        String seed = "seed " + trial.seed() + ": ";
        int streams = trial.session().streams().size();
        assertThat(figures.books().doneBytes())
                .as(seed + "bytes read per stream")
                .containsExactlyElementsOf(
                        IntStream.range(0, streams).mapToObj(i -> brute.read[i]).toList());
        assertThat(figures.books().lostMs())
                .as(seed + "ms of silence per stream")
                .containsExactlyElementsOf(IntStream.range(0, streams)
                        .mapToObj(i -> brute.silentBytes(i)
                                * 1e3
                                / trial.session().streams().get(i).bytesPerSecond())
                        .toList());
        assertThat(figures.underruns()).as(seed + "underruns").isEqualTo(brute.underruns());
        assertThat(figures.books().totals().operations()).as(seed + "reads").isEqualTo(brute.reads);
        assertThat(figures.books().totals().busyNs()).as(seed + "busy").isEqualTo(brute.busyNs);
        assertThat(figures.books().totals().peakMs()).as(seed + "lacking").isEqualTo(brute.peakMs);
        assertThat(figures.leastHeldMs()).as(seed + "least held").isEqualTo(brute.leastHeldMs);
        assertThat(figures.books().stallCount()).as(seed + "stalls").isEqualTo(brute.stalls.size());
        if (brute.stalls.size() <= PhaseFacts.MOST_LISTED) {
            assertThat(figures.books().stalls())
                    .as(seed + "stalls")
                    .containsExactlyElementsOf(brute.stalls.stream()
                            .map(wait -> new Stall(wait.fromNs() / 1e9, (wait.toNs() - wait.fromNs()) / 1e6, 0))
                            .toList());
        }
    }
}
