package tracksoak.bench.phase.run;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.bench.phase.VirtualRun;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.Models;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.Key;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionOverrides;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.RunRecord;

/** What a dry run promises not to exceed, against the bytes the drive itself counts. */
class BudgetTest {

    private static final long RESERVE = 256L << 20;
    private static final long GB = 1_000_000_000;

    /** Every kind of session and layout, in short and in long files; every plan; much room and little. */
    private static List<Case> cases() {
        List<Case> cases = new ArrayList<>();
        for (String name :
                List.of("trio-8", "one-file-32", "two-rates", "band-32", "playback-16", "mixdown-32", "archive-32")) {
            Session shipped = SessionCatalog.shipped().find(name);
            for (long lengthS : new long[] {90, 900}) {
                for (long freeBytes : new long[] {2 * GB, 12 * GB}) {
                    Session session = SessionOverrides.none()
                            .with(Key.LENGTH, lengthS)
                            .with(Key.FILE_LIMIT, lengthS == 90 ? 16L << 20 : null)
                            .applyTo(shipped);
                    cases.add(new Case(session, Plan.lineCheck().fitting(session), freeBytes));
                    cases.add(new Case(session, Plan.soundCheck(session).fitting(session), freeBytes));
                    cases.add(new Case(session, Plan.fullShow(session).fitting(session), freeBytes));
                    cases.add(new Case(
                            session,
                            Plan.lineCheck().withDurations(null, null, 5.0).fitting(session),
                            freeBytes));
                }
            }
        }
        return cases;
    }

    @ParameterizedTest
    @MethodSource("cases")
    void noRunWritesMoreThanItsDryRunSays(Case given) {
        VirtualClock clock = new VirtualClock(1_795_000_000_000L);
        DriveModel model = SimulatedDrives.named("steady-stick").orElseThrow();
        SimulatedDrive drive =
                Models.used(model, model.capacityBytes() - given.freeBytes()).plug(clock, 30_000_000_000L);
        Budget budget = Budget.of(given.session(), given.plan(), drive.alignmentBytes(), given.freeBytes(), RESERVE);

        RunRequest request =
                new RunRequest(VirtualRun.ID, "tracksoak test", given.session(), given.plan(), 7, 30, RESERVE);
        RunRecord record = VirtualRun.of(request, drive, clock);

        long written = drive.counters().orElseThrow().bytesWritten();
        assertThat(record.phases()).isNotEmpty();
        assertThat(written).isPositive().isLessThanOrEqualTo(budget.mostBytes());
        if (budget.fillBytes() + budget.copyBytes() == 0
                && record.phases().stream().allMatch(phase -> phase.fault() == null)) {
            // with takes alone nothing is left open but the last chunk of each track
            long open = (given.session().streams().size()
                            + given.session().mixStreams().size())
                    * 2L
                    * given.session().chunkBytes();
            long probesSpared = Probes.mostBytes(given.session(), given.plan(), given.freeBytes())
                    - Objects.requireNonNull(record.method().probes()).placed() * (long) Stamp.BLOCK;
            assertThat(budget.mostBytes() - written - probesSpared)
                    .as("promised and not written")
                    .isLessThan(open);
        }
    }

    private record Case(Session session, Plan plan, long freeBytes) {
        @Override
        public String toString() {
            return plan.name().word() + (plan.shortened() ? " of 5 s" : "") + ", " + session.name() + ", "
                    + session.lengthS() + " s in files of " + session.fileLimitBytes() + " B, " + freeBytes / GB
                    + " GB free";
        }
    }

    /** 8 open files are given 512 MiB each ahead of what is written, whatever little that is. */
    @Test
    void roomGivenInAdvanceMustBeThere() {
        Session session = SessionCatalog.shipped().find("trio-8");
        Session ahead = session.but().spaceInAdvanceBytes(512L << 20).build();
        for (Plan plan : List.of(Plan.lineCheck(), Plan.soundCheck(session), Plan.fullShow(session))) {
            long least = Budget.of(session, plan, 4096, 60 * GB, RESERVE).leastBytes();
            assertThat(Budget.of(ahead, plan, 4096, 60 * GB, RESERVE).leastBytes() - least)
                    .isEqualTo(8 * (512L << 20));
        }
    }
}
