package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict;

class AdviceTest {

    @ParameterizedTest(name = "missed {0}")
    @CsvSource({
        "intact, take it out of the bag",
        "intact lost-audio port, take it out of the bag",
        "lost-audio, says so without a new test",
        "buffer-margin port, try a faster port",
        "port, Move it to a faster port",
        "room format, larger drive",
        "format, format it as the session asks",
        "close-time, wait that long after every stop",
        "playback, Leave it at home"
    })
    void namesTheActThatFitsWhatWasMissed(String missed, String advice) {
        Verdict verdict = new Verdict(
                Verdict.Outcome.FAIL,
                "",
                "",
                "rec-32",
                Arrays.stream(missed.split(" ", -1))
                        .map(id -> new Criterion(id, "", "", null, null, "", null, false, false, ""))
                        .toList(),
                List.of(),
                List.of());
        assertThat(Advice.of(Showcase.fail(), verdict)).contains(advice);
    }

    /** Room that no clearing makes is not asked for. */
    @Test
    void tellsADriveThatIsTooSmallFromOneThatIsTooFull() {
        RunRecord fail = Showcase.fail();
        Verdict noRoom = new Verdict(
                Verdict.Outcome.FAIL,
                "",
                "",
                "rec-32",
                List.of(new Criterion("room", "", "", null, null, "", null, false, false, "")),
                List.of(),
                List.of());
        RunRecord small = Showcase.record(
                fail.id(),
                fail.state(),
                "",
                fail.plan(),
                fail.drive().but().fileSystemBytes(3_000_000_000L).build(),
                fail.phases(),
                fail.verdict());

        assertThat(Advice.of(fail, noRoom)).startsWith("Free room on it");
        assertThat(Advice.of(small, noRoom)).contains("larger drive").doesNotContain("Free room");
    }

    /** A drive that hung, vanished or lied carries no smaller session either. */
    @ParameterizedTest
    @EnumSource(
            value = Fault.Kind.class,
            names = {"HUNG", "GONE", "READ_ONLY", "IO_ERROR"})
    void neverOffersABrokenDriveForASmallerSession(Fault.Kind kind) {
        RunRecord fail = Showcase.fail();
        List<PhaseFacts> phases = new ArrayList<>(fail.phases());
        phases.add(fail.phases()
                .get(0)
                .but()
                .fault(new Fault(kind, 1, 1, "write", ""))
                .build());
        RunRecord broken =
                Showcase.record(fail.id(), fail.state(), "", fail.plan(), fail.drive(), phases, fail.verdict());
        assertThat(Advice.of(broken, verdict(fail)))
                .startsWith("Leave it at home")
                .contains("out of the bag")
                .doesNotContain("smaller");
    }

    /** A loss that is proven stays one, but what is known of such a drive is no ground to offer it to another session. */
    @Test
    void waitsForAWholeRunOfADriveThatDidNotAnswerWhenItWasStopped() {
        RunRecord fail = Showcase.fail();
        PhaseFacts take = fail.phases()
                .get(0)
                .but()
                .seconds(20)
                .fault(new Fault(Fault.Kind.UNANSWERED, 8, 1, "write to a", "stopped by you"))
                .build();
        RunRecord stopped = Showcase.record(
                fail.id(), RunState.INTERRUPTED, "", fail.plan(), fail.drive(), List.of(take), fail.verdict());
        assertThat(Advice.of(stopped, verdict(fail)))
                .startsWith("Leave it at home until it has come through a whole run")
                .contains("had not answered for 12 s when you stopped")
                .doesNotContain("smaller");
    }

    @Test
    void sendsNobodyToAShowOnAPassThatDoesNotCount() {
        assertThat(Advice.of(Showcase.pass(), verdict(Showcase.pass()))).startsWith("Pack it");
        assertThat(advice(PlanFacts.of(PlanName.LINE_CHECK, false, 0, 0, 120, 1)))
                .contains("not trusted yet");
        assertThat(advice(PlanFacts.of(PlanName.SOUND_CHECK, true, 1, 1, 1, 1))).startsWith("Not trusted yet");
    }

    private static String advice(PlanFacts plan) {
        RunRecord pass = Showcase.pass();
        RunRecord other =
                Showcase.record(pass.id(), pass.state(), "", plan, pass.drive(), pass.phases(), pass.verdict());
        return Advice.of(other, verdict(pass));
    }

    private static Verdict verdict(RunRecord record) {
        return Objects.requireNonNull(record.verdict());
    }
}
