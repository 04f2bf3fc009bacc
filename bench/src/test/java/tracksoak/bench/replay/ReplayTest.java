package tracksoak.bench.replay;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.bench.oracle.Sessions;
import tracksoak.bench.oracle.WholeRun;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.ConstantRate;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.PeriodicStalls;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.Estimate;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict.Outcome;

/** The replay against closed forms of the queue, and what it refuses. */
class ReplayTest {

    private static final long SECOND = 1_000_000_000L;
    private static final int CHUNK = 64 << 10;
    /** 48,000 Hz × 3 B (arithmetic). */
    private static final double PERIOD_MS = CHUNK / 144.0;

    private static RunRecord run(Session session, Behaviour... behaviours) {
        return WholeRun.of(
                session,
                DriveModel.of("replayed", "for a test", 5, 1L << 40, behaviours),
                Plan.named(PlanName.LINE_CHECK).takeAfter(60).shortened().plan());
    }

    /**
     * A stall of T leaves a backlog of T behind at whatever demand, for the audio of T is made meanwhile (R·T ÷ R; closed form
     * of the paced queue). On top come the chunk that was due, and where the replay is cautious one more chunk period.
     */
    @Test
    void aStallLeavesItsOwnLengthBehindAtWhateverDemand() {
        RunRecord made = run(
                Sessions.tracks(32),
                new ConstantRate(30_000_000, 30_000_000, 0),
                new PeriodicStalls(7 * SECOND, 10 * SECOND, 750_000_000));
        PhaseFacts take = made.phases().get(0);
        for (int tracks : new int[] {32, 16, 4}) {
            Session other = Sessions.tracks(tracks);
            double cautious =
                    Scenario.CAUTIOUS_BY_THE_CLOCK.play(other, made, take).peakMs();
            assertThat(cautious).isBetween(750.0, 750 + 2 * PERIOD_MS + 150);
            double hopeful =
                    Scenario.HOPEFUL_BY_THE_BYTE.play(other, made, take).peakMs();
            assertThat(hopeful).isBetween(Math.min(750, cautious) * 0.5, cautious);
        }
    }

    /** Without stalls the busy fraction is demand ÷ rate: half the tracks keep the drive busy half as long. */
    @Test
    void busyFollowsTheDemand() {
        RunRecord made = run(Sessions.tracks(32), new ConstantRate(9_216_000, 9_216_000, 0));
        PhaseFacts take = made.phases().get(0);
        // 32 × 144,000 B/s ÷ 9,216,000 B/s = 0.5; the last chunks are written after the end
        assertThat(take.busyFraction()).isBetween(0.48, 0.51);
        for (Scenario scenario : Scenario.values()) {
            assertThat(scenario.play(Sessions.tracks(16), made, take).busyFraction())
                    .isBetween(0.24, 0.27);
        }
    }

    @Test
    void aDriveTooSlowForManyMayCarryFew() {
        RunRecord made = run(Sessions.tracks(32), new ConstantRate(4_000_000, 4_000_000, 0));
        assertThat(outcome(made)).isEqualTo(Outcome.FAIL);
        assertThat(Replay.of(Sessions.tracks(8), made).outcome()).isEqualTo(Outcome.PASS);
        Estimate no = Replay.of(Sessions.tracks(28), made);
        assertThat(no.outcome()).isEqualTo(Outcome.FAIL);
        assertThat(no.sentence()).startsWith("Estimated").contains("not measured");
        assertThat(no.figures()).hasSize(5);
    }

    @Test
    void theSameRecordGivesTheSameEstimate() {
        RunRecord made = run(Sessions.tracks(32), new ConstantRate(4_000_000, 4_000_000, 0));
        assertThat(Replay.of(Sessions.tracks(8), made)).isEqualTo(Replay.of(Sessions.tracks(8), made));
    }

    static Stream<Arguments> uncovered() {
        Session made = Sessions.tracks(32);
        return Stream.of(
                Arguments.of("files open", Sessions.tracks(33)),
                Arguments.of("chunks of", with(made, s -> change(s, 32 << 10, Arrival.BURST, 5, 2, 1 << 30))),
                Arguments.of("another pattern", with(made, s -> change(s, CHUNK, Arrival.STAGGERED, 5, 2, 1 << 30))),
                Arguments.of("another interval", with(made, s -> change(s, CHUNK, Arrival.BURST, 2, 2, 1 << 30))),
                Arguments.of("too short", with(made, s -> change(s, CHUNK, Arrival.BURST, 5, 40, 1 << 30))),
                Arguments.of("another size", with(made, s -> change(s, CHUNK, Arrival.BURST, 5, 2, 1 << 29))));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("uncovered")
    void whatTheMeasurementDoesNotCoverIsRefused(String why, Session other) {
        RunRecord made = run(Sessions.tracks(32), new ConstantRate(30_000_000, 30_000_000, 0));
        Estimate estimate = Replay.of(other, made);
        assertThat(estimate.outcome()).isEqualTo(Outcome.NO_VERDICT);
        assertThat(estimate.figures()).isEmpty();
        assertThat(estimate.refused()).anyMatch(sentence -> sentence.contains(why));
    }

    @Test
    void aRunThatWasCutShortIsRefused() {
        RunRecord made = run(
                Sessions.tracks(8),
                new ConstantRate(30_000_000, 30_000_000, 0),
                new tracksoak.bench.simulated.WearOut(8_000_000));
        assertThat(Replay.of(Sessions.tracks(4), made).refused()).anyMatch(why -> why.contains("cut short"));
    }

    private static Outcome outcome(RunRecord record) {
        return java.util.Objects.requireNonNull(record.verdict()).outcome();
    }

    private static Session with(Session session, UnaryOperator<Session> change) {
        return change.apply(session);
    }

    private static Session change(
            Session s, int chunk, Arrival arrival, double flushS, double bufferS, long fileLimit) {
        return s.but()
                .about("")
                .mix(List.of())
                .layout(FileLayout.FILE_PER_TRACK)
                .chunkBytes(chunk)
                .arrival(arrival)
                .writers(1)
                .flushS(flushS)
                .bufferS(bufferS)
                .bufferAssumed(false)
                .fileLimitBytes(fileLimit)
                .build();
    }
}
