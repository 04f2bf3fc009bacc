package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;

/**
 * The fill's floor, its steady state and its end against plain arithmetic over every single write ({@link BruteFill}), from the
 * drive's model alone. The cap leaves no room for more than the rule that ends a fill.
 */
class FloorOracleTest {

    private static final long FIRST_SEED = 40_260_000L;
    private static final double ROUND_S = 10;
    private static final double CAP_S = 200;

    /** Sums of up to 10¹¹ B in double precision, each within 2⁻⁵³ of itself. */
    private static final double ROUNDING_BYTES = 1e-3;

    /** 60 seeds in each build, 3,000 others at night. */
    @Test
    void floorAgreesWithPlainArithmetic() throws IOException {
        compare(FIRST_SEED, 60);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void floorAgreesAllNight() throws IOException {
        compare(FIRST_SEED + 1_000_000, 3_000);
    }

    private static void compare(long firstSeed, int count) throws IOException {
        int steady = 0;
        double worst = 0;
        for (long seed = firstSeed; seed < firstSeed + count; seed++) {
            Trial trial = Trial.of(seed);
            Session session = Sessions.shortSession(trial.session());
            RunRecord record = WholeRun.of(
                    session,
                    trial.drive(),
                    Plan.named(PlanName.SOUND_CHECK)
                            .fillCap(CAP_S)
                            .takeAfter(1)
                            .shortened()
                            .plan());
            PhaseFacts phase = record.phases().get(0);
            FillFacts fill = Objects.requireNonNull(phase.fill());
            BruteFill brute = BruteFill.of(session, DriveServer.plugged(trial.drive()), CAP_S, ROUND_S);
            String named = "seed " + seed + ": ";
            assertThat(phase.operations()).as(named + "writes").isEqualTo(brute.writes());
            assertThat(phase.bytes()).as(named + "bytes").isEqualTo(brute.bytes());
            assertThat(phase.seconds()).as(named + "seconds").isCloseTo(brute.endNs() / 1e9, within(1e-6));
            assertThat(fill.steady()).as(named + "steady").isEqualTo(brute.steady());
            double floor = brute.floor();
            worst = Math.max(worst, Math.abs(fill.floorBytesPerSecond() - floor) * 10);
            assertThat(fill.floorBytesPerSecond())
                    .as(named + "floor in B/s")
                    .isCloseTo(floor, within(ROUNDING_BYTES / 10));
            steady += fill.steady() ? 1 : 0;
        }
        System.out.printf(
                Locale.ROOT,
                "floors: seeds %d to %d, %d steady, worst difference %.6f B in 10 s%n",
                firstSeed,
                firstSeed + count - 1,
                steady,
                worst);
        assertThat(steady).as("fills that became steady").isBetween(count / 10, count - 1);
    }
}
