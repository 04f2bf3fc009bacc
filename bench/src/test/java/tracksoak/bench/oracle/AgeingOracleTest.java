package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.simulated.Ageing;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.Jitter;
import tracksoak.bench.simulated.RandomStalls;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.report.history.Change;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.history.Figure;
import tracksoak.report.history.Past;
import tracksoak.report.record.facts.RunRecord;

/** Histories of whole runs on simulated drives, whose ageing is known in closed form. */
class AgeingOracleTest {

    private static final long MB = 1_000_000;
    private static final long GB = 1_000_000_000;
    private static final long DAY_MS = 86_400_000L;
    private static final long FIRST_MS = 1_795_000_000_000L;
    private static final Session SESSION = SessionCatalog.shipped().find("trio-8");
    private static final Plan BRIEF = Plan.soundCheck(SESSION).withDurations(10.0, 60.0, 10.0);

    private static RunRecord run(int number, long day, long seed, Behaviour... behaviours) {
        DriveModel model = DriveModel.of("show-stick", "a stick", seed, 16 * GB, behaviours);
        return WholeRun.of(
                String.format(java.util.Locale.ROOT, "017f22e2-79b0-7cc3-98c4-%012x", number),
                FIRST_MS + day * DAY_MS,
                SESSION,
                model,
                BRIEF);
    }

    private static DriveHistory seenByLast(List<RunRecord> runs) {
        RunRecord latest = runs.get(runs.size() - 1);
        return DriveHistory.of(
                latest, runs.stream().map(run -> Past.of(run, latest)).toList(), List.of());
    }

    /**
     * A drive that takes (1 + written ÷ 40 GB) times as long, with 5 GB of use every 45 days: its rate is 40 MB/s ÷ (1 +
     * written ÷ 40 GB), from 40 to about 22 MB/s over 270 days. The floor of each run lies between that of its beginning
     * and that of its end, and the sentence says that it falls.
     */
    @Test
    void aDriveThatAgesIsFoundOut() {
        List<RunRecord> runs = new ArrayList<>();
        long worn = 0;
        for (int i = 0; i < 7; i++) {
            RunRecord run = run(
                    i + 1,
                    45L * i,
                    71,
                    new ConstantRate(40 * MB, 90 * MB, 0),
                    new Jitter(20),
                    new Ageing(40 * GB, worn));
            double floor = Objects.requireNonNull(Figure.FLOOR.of(run));
            double most = 40e6 / (1 + worn / 40e9);
            double least = 40e6 / (1 + (worn + 5e9) / 40e9);
            assertThat(floor).as("run %d", i).isBetween(least * 0.97, most);
            runs.add(run);
            worn += 5 * GB;
        }
        DriveHistory history = seenByLast(runs);
        assertThat(history.ageing()).isTrue();
        Change floor = history.change(Figure.FLOOR);
        assertThat(floor.verdict()).isEqualTo(Change.Said.WORSE);
        // all in falling order: 1 ÷ 7!, for each of at most five figures asked together (Holm 1979), at the third look:
        // 3 · 4
        assertThat(Objects.requireNonNull(floor.chance())).isBetween(12 / 5040.0 - 1e-12, 60 / 5040.0 + 1e-12);
        assertThat(Objects.requireNonNull(floor.trend()).slope() * 270).isCloseTo(-17e6, within(2.5e6));
        assertThat(history.sentence()).startsWith("The floor fell from ").contains(" in nine months; at this pace it ");
    }

    /**
     * Where nothing changes but chance, ageing is called in at most 5 % of histories: 80 histories of six whole runs on
     * drives with random stalls (seeds 1 to 480). The chance of more than 9 alarms at a rate of 5 % is below 1 % (binomial).
     */
    @Test
    void aDriveThatDoesNotAgeRaisesFalseAlarmsNoOftenerThanStated() {
        int alarms = 0;
        int histories = 80;
        for (int h = 0; h < histories; h++) {
            List<RunRecord> runs = new ArrayList<>();
            for (int i = 0; i < 6; i++) {
                runs.add(run(
                        i + 1,
                        30L * i,
                        h * 6L + i + 1,
                        new ConstantRate(40 * MB, 90 * MB, 100_000),
                        new Jitter(200),
                        new RandomStalls(5_000_000_000L, 80_000_000, 1_000_000_000, 1.6)));
            }
            alarms += seenByLast(runs).ageing() ? 1 : 0;
        }
        assertThat(alarms).as("false alarms in %d histories", histories).isLessThanOrEqualTo(9);
    }
}
