package tracksoak.bench.phase;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.Run;
import tracksoak.bench.phase.run.RunListener;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.SimulatedDrive;
import tracksoak.bench.simulated.SimulatedDrives;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.RunRecord;

/**
 * The time left that is shown: from the first tenth of a run to its end |elapsed + left − total| ÷ total is at most a tenth,
 * and it is never unknown. Truth is the end of the run itself, on virtual time. A drive that breaks ends its run sooner than
 * anybody can foresee and is left out. What else cannot be foreseen is named below with a bound of its own, and must need it.
 */
class TimeLeftTest {

    private static final double FIRST = 0.1;
    private static final double MOST = 0.1;

    /** Drives that break in some plan. */
    private static final Set<String> BREAKING = Set.of("loose-plug-stick", "worn-out-card", "hanging-ssd");

    /** Full shows whose runs differ in time; other drives only spoil what they hold, or take long to simulate. */
    private static final Set<String> QUICK =
            Set.of("steady-ssd", "slow-stick", "cliff-ssd", "hot-ssd", "old-disk", "shared-port-stick", "faded-stick");

    private static final String UNREAD = "how long weak spots take to read shows only when they are read";
    private static final String CLIFF = "a cliff, or throttling, not yet met, or just met";
    private static final String WAVERING = "another device takes half the port now and then";
    private static final String SEEKS = "how far the heads must jump shows only when a full disk is read";

    private static final String PIECES = "its room is in ever more pieces";

    /** Largest error where a tenth does not hold, in parts of the whole run, and why. */
    private record Unforeseen(double most, String why) {}

    private static final Map<String, Unforeseen> UNFORESEEN = Map.ofEntries(
            Map.entry("trio-8 sound-check shared-port-stick", new Unforeseen(0.15, WAVERING)),
            Map.entry("trio-8 sound-check faded-stick", new Unforeseen(0.65, UNREAD)),
            Map.entry("band-32 sound-check cliff-ssd", new Unforeseen(0.25, CLIFF)),
            Map.entry("band-32 sound-check nearly-full-stick", new Unforeseen(0.25, CLIFF)),
            Map.entry("band-32 sound-check sleepy-disk", new Unforeseen(0.11, SEEKS)),
            Map.entry("band-32 sound-check faded-stick", new Unforeseen(0.65, UNREAD)),
            Map.entry("band-32 line-check faded-stick", new Unforeseen(0.25, UNREAD)),
            Map.entry("mixdown-32 sound-check faded-stick", new Unforeseen(0.2, UNREAD)),
            Map.entry("mixdown-32 line-check crowded-card", new Unforeseen(0.15, PIECES)),
            Map.entry("mixdown-32 sound-check crowded-card", new Unforeseen(0.11, PIECES)),
            Map.entry("mixdown-32 line-check faded-stick", new Unforeseen(0.15, UNREAD)),
            Map.entry("archive-32 sound-check hot-ssd", new Unforeseen(2.5, CLIFF)),
            Map.entry("archive-32 sound-check faded-stick", new Unforeseen(0.6, UNREAD)),
            Map.entry("archive-32 line-check cliff-ssd", new Unforeseen(0.45, CLIFF)),
            Map.entry("archive-32 line-check nearly-full-stick", new Unforeseen(0.4, CLIFF)),
            Map.entry("archive-32 line-check shared-port-stick", new Unforeseen(0.15, WAVERING)),
            Map.entry("archive-32 line-check faded-stick", new Unforeseen(0.6, UNREAD)),
            Map.entry("archive-32 line-check dozing-ssd", new Unforeseen(0.15, "it hangs once for 20 s")));

    private record Seen(double atS, double leftS) {}

    @ParameterizedTest
    @ValueSource(strings = {"trio-8", "playback-16"})
    void holdsInShortPlans(String name) {
        Session session = SessionCatalog.shipped().find(name);
        hold(session, List.of(Plan.lineCheck(), Plan.soundCheck()), SimulatedDrives.all());
    }

    @Test
    void holdsInAFullShow() {
        Session session = SessionCatalog.shipped().find("trio-8");
        List<DriveModel> quick = SimulatedDrives.all().stream()
                .filter(model -> QUICK.contains(model.name()))
                .toList();
        assertThat(quick).hasSameSizeAs(QUICK);
        hold(session, List.of(Plan.fullShow(session)), quick);
    }

    @Tag("nightly")
    @ParameterizedTest
    @ValueSource(strings = {"band-32", "archive-32", "mixdown-32"})
    void holdsInShortPlansOfLargeSessions(String name) {
        holdsInShortPlans(name);
    }

    @Tag("nightly")
    @ParameterizedTest
    @ValueSource(strings = {"trio-8", "band-32"})
    void holdsInAFullShowOnEveryDrive(String name) {
        Session session = SessionCatalog.shipped().find(name);
        hold(session, List.of(Plan.fullShow(session)), SimulatedDrives.all());
    }

    private static void hold(Session session, List<Plan> plans, List<DriveModel> models) {
        List<String> wrong = new ArrayList<>();
        for (Plan plan : plans) {
            for (DriveModel model : models) {
                String where = session.name() + " " + plan.name().word() + " " + model.name();
                double worst = worst(model, session, plan.fitting(session));
                Unforeseen known = UNFORESEEN.get(where);
                boolean right = known == null ? worst <= MOST : worst > MOST && worst <= known.most();
                if (!right) {
                    wrong.add(String.format(
                            Locale.ROOT,
                            "%s: by up to %.1f %%%s",
                            where,
                            worst * 100,
                            known == null ? "" : ", should be above 10 % for " + known.why()));
                }
            }
        }
        assertThat(wrong).isEmpty();
    }

    /** Largest error after the first tenth, in parts of the whole run; 0 if the drive broke, infinite if once unknown. */
    private static double worst(DriveModel model, Session session, Plan plan) {
        List<Seen> seen = new ArrayList<>();
        VirtualClock clock = new VirtualClock(1_795_000_000_000L);
        RunRecord record = run(model, session, plan, clock, seen);
        if (record.phases().stream().anyMatch(phase -> phase.fault() != null)) {
            assertThat(BREAKING).contains(model.name());
            return 0;
        }
        double total = clock.nanoTime() / 1e9;
        assertThat(seen.size()).isGreaterThan(10);
        return seen.stream()
                .filter(each -> each.atS() >= FIRST * total)
                .mapToDouble(each -> each.leftS() < 0
                        ? Double.POSITIVE_INFINITY
                        : Math.abs(each.atS() + each.leftS() - total) / total)
                .max()
                .orElseThrow();
    }

    private static RunRecord run(DriveModel model, Session session, Plan plan, VirtualClock clock, List<Seen> seen) {
        SimulatedDrive drive = model.plug(clock, 30_000_000_000L);
        RunRequest request = new RunRequest(VirtualRun.ID, "test", session, plan, 7, 30, 256L << 20);
        RunListener listener = new VirtualRun.Deaf() {
            @Override
            public void progress(Progress progress) {
                seen.add(new Seen(clock.nanoTime() / 1e9, progress.leftS()));
            }
        };
        return new Run(request, drive, drive.facts(), VirtualRun.HOST, clock, clock, clock, true, listener).call();
    }
}
