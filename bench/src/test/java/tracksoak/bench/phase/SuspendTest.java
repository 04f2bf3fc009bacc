package tracksoak.bench.phase;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.Run;
import tracksoak.bench.phase.run.RunRequest;
import tracksoak.bench.recorder.MemoryDrive;
import tracksoak.bench.recorder.watch.SleepProbe;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.Verdict.Outcome;

/**
 * A computer that sleeps in the middle of a run, on virtual clocks: the monotonic clock stands still, the wall clock and
 * the clock since the start of the computer go on.
 */
class SuspendTest {

    private static final long S = 1_000_000_000L;
    private static final double ASLEEP_S = 90;

    private final VirtualClock clock = new VirtualClock(1_795_000_000_000L);
    private double sleptS;
    private final EpochClock wall = () -> clock.epochMillis() + Math.round(sleptS * 1e3);
    private final SleepProbe sinceStart = () -> OptionalDouble.of(clock.nanoTime() / 1e9 + sleptS);

    @Test
    void aSleepInATakeOpensWhatRestsOnTheTakeAndNothingElse() {
        RunRecord record = run(sleepingAt(60 * S, 1_000_000), Plan.lineCheck().withIdle(0.0));
        HostDelays host = Objects.requireNonNull(record.phases().get(0).hostDelays());
        assertThat(host.suspendedMs()).isCloseTo(ASLEEP_S * 1e3, within(0.001));
        assertThat(host.clockStepMs()).isZero();
        assertThat(verdict(record).outcome()).isEqualTo(Outcome.NO_VERDICT);
        assertThat(verdict(record).reasons().get(0)).contains("slept for 90 s during the take");
        assertThat(open(record)).containsExactly("lost-audio", "buffer-margin", "rate-margin", "longest-stall");
        assertThat(criterion(record, "close-time").met()).isTrue();
        assertThat(criterion(record, "intact").met()).isTrue();
    }

    @Test
    void aSleepInTheCloseOpensTheCloseAlone() {
        RunRecord record =
                run(sleepingAt(120 * S + 1, 1_000_000), Plan.lineCheck().withIdle(0.0));
        assertThat(Objects.requireNonNull(phase(record, PhaseKind.CLOSE).hostDelays())
                        .suspendedMs())
                .isCloseTo(ASLEEP_S * 1e3, within(0.001));
        assertThat(open(record)).containsExactly("close-time");
        assertThat(verdict(record).outcome()).isEqualTo(Outcome.NO_VERDICT);
    }

    @Test
    void aSleepInTheFillOpensTheRateAlone() {
        Plan plan = Plan.named(PlanName.SOUND_CHECK)
                .takeBefore(20)
                .fillCap(60)
                .takeAfter(20)
                .round(5)
                .shortened()
                .plan();
        RunRecord record = run(sleepingAt(30 * S, 40_000_000), plan);
        assertThat(Objects.requireNonNull(phase(record, PhaseKind.FILL).hostDelays())
                        .suspendedMs())
                .isCloseTo(ASLEEP_S * 1e3, within(0.001));
        assertThat(open(record)).containsExactly("rate-margin");
    }

    @Test
    void aMissInATakeThatWasNotSpoiltStaysAMiss() {
        // a write of 4 s at 10 s against 2 s of buffer in the first take; the sleep falls into the second
        boolean[] stalled = {false};
        MemoryDrive drive = new MemoryDrive(clock).writing((now, bytes) -> {
            if (now >= 10 * S && !stalled[0]) {
                stalled[0] = true;
                return 4 * S;
            }
            sleepAt(now, 50 * S);
            return 40_000_000;
        });
        RunRecord record = run(
                drive,
                Plan.named(PlanName.SOUND_CHECK)
                        .takeBefore(20)
                        .fillCap(10)
                        .takeAfter(60)
                        .round(1)
                        .shortened()
                        .plan());
        assertThat(sleptS).isPositive();
        assertThat(verdict(record).outcome()).isEqualTo(Outcome.FAIL);
        assertThat(criterion(record, "lost-audio").met()).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"0.4, PASS", "90, NO_VERDICT"})
    void onlyASleepOfMoreThanHalfASecondCounts(double seconds, Outcome outcome) {
        boolean[] done = {false};
        MemoryDrive drive = new MemoryDrive(clock).writing((now, bytes) -> {
            sleptS += now >= 60 * S && !done[0] ? seconds : 0;
            done[0] |= now >= 60 * S;
            return 1_000_000;
        });
        assertThat(verdict(run(drive, Plan.lineCheck().withIdle(0.0))).outcome())
                .isEqualTo(outcome);
    }

    private MemoryDrive sleepingAt(long ns, long serviceNs) {
        return new MemoryDrive(clock).writing((now, bytes) -> {
            sleepAt(now, ns);
            return serviceNs;
        });
    }

    private void sleepAt(long now, long ns) {
        sleptS = now >= ns ? ASLEEP_S : sleptS;
    }

    private RunRecord run(MemoryDrive drive, Plan plan) {
        Session session = SessionCatalog.shipped().find("stick-mix-2");
        RunRequest request = new RunRequest(VirtualRun.ID, "tracksoak test", session, plan, 7, 30, 64L << 20);
        return new Run(
                        request,
                        new TestTarget(drive, VirtualRun.memory(8L << 30), clock, wall, clock, true, sinceStart),
                        VirtualRun.HOST,
                        new VirtualRun.Deaf())
                .call();
    }

    private static List<String> open(RunRecord record) {
        return verdict(record).criteria().stream()
                .filter(criterion -> criterion.met() == null && criterion.decidedByHost())
                .map(Criterion::id)
                .toList();
    }

    private static PhaseFacts phase(RunRecord record, PhaseKind kind) {
        return record.phases().stream()
                .filter(phase -> phase.kind() == kind)
                .findFirst()
                .orElseThrow();
    }

    private static Criterion criterion(RunRecord record, String id) {
        return verdict(record).criteria().stream()
                .filter(criterion -> criterion.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private static Verdict verdict(RunRecord record) {
        return Objects.requireNonNull(record.verdict());
    }
}
