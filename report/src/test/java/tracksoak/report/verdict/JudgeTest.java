package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import tracksoak.report.record.PhaseSketch;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StartFacts;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.Verdict.Outcome;
import tracksoak.report.record.json.RecordJson;

/** The verdict as a whole: order, sentences, scope, purity. The single rules have their own tables. */
class JudgeTest {

    private static final String[] ORDER = {
        "lost-audio",
        "buffer-margin",
        "rate-margin",
        "longest-stall",
        "close-time",
        "intact",
        "room",
        "format",
        "port",
        "playback"
    };

    @Test
    void aGoodSoundCheckIsTrusted() {
        Verdict verdict = Judge.judge(RunSketch.good().record());
        assertThat(verdict.reasons()).isEmpty();
        assertThat(verdict.outcome()).isEqualTo(Outcome.PASS);
        assertThat(verdict.sentence())
                .isEqualTo(
                        "This drive is cleared for Barn theatre, 32 tracks: no audio was lost, and the smallest margin"
                                + " was 4× (at least 2× needed).");
        assertThat(verdict.scope())
                .isEqualTo("sound-check: 49 min 21 s observed with takes of 5 min and 10 min; 84.1 GB written, at most"
                        + " 35.1 % of the drive's 240 GB; on this port and this computer, as full and as old as"
                        + " the drive was then.");
        assertThat(verdict.criteria().stream().map(Criterion::id)).containsExactly(ORDER);
        assertThat(verdict.session()).isEqualTo("barn-32");
    }

    @Test
    void aLineCheckNeverMakesADriveTrusted() {
        Verdict verdict = Judge.judge(RunSketch.goodLineCheck().record());
        assertThat(verdict.outcome()).isEqualTo(Outcome.PASS);
        assertThat(verdict.sentence())
                .isEqualTo(
                        "Nothing is obviously wrong for Barn theatre, 32 tracks; that is not enough to trust the drive"
                                + " with a show.");
        assertThat(criterion(verdict, "rate-margin").sentence())
                .startsWith("The drive was not filled; during the takes");
    }

    @Test
    void aShortenedRunSaysSoEverywhere() {
        RunSketch run = RunSketch.good();
        run.shortened();
        Verdict verdict = Judge.judge(run.record());
        assertThat(verdict.outcome()).isEqualTo(Outcome.PASS);
        assertThat(verdict.sentence())
                .startsWith("So far this drive carries")
                .endsWith("This was a shortened sound-check, which never counts as the full one.");
        assertThat(verdict.scope()).startsWith("sound-check (shortened): ");
        assertThat(verdict.notes()).contains("The run was shortened and never counts as a full sound-check.");
    }

    @Test
    void aFailNamesTheFirstMissThatMatters() {
        RunSketch run = RunSketch.good();
        run.freeBytes = 1_000_000L;
        assertThat(Judge.judge(run.record()).sentence())
                .isEqualTo(
                        "Not as it stands for Barn theatre, 32 tracks. 3 h of this session need 49.8 GB, but only 1 MB"
                                + " were free before the run. Copy what must be kept elsewhere, then clear the drive.");
        run.phase(PhaseKind.CLOSE).close = new tracksoak.report.record.facts.CloseFacts(0, 0, 20_000, 0, 0, 20_000, 32);
        assertThat(Judge.judge(run.record()).sentence())
                .isEqualTo(
                        "Leave this drive at home for Barn theatre, 32 tracks. From stop to safe to unplug took 20 s,"
                                + " and 10 s is the most allowed.");
    }

    /** Clearing a drive helps only where the session would fit on it then. */
    @Test
    void aDriveThatIsTooSmallIsNotToBeCleared() {
        RunSketch run = RunSketch.good();
        run.freeBytes = 30_000_000_000L;
        assertThat(Judge.judge(run.record()).sentence())
                .contains("30 GB were free before the run. Copy what must be kept elsewhere");
        run.fileSystemBytes = 32_000_000_000L;
        assertThat(Judge.judge(run.record()).sentence())
                .contains("only 32 GB fit on this drive even when it is empty: take a larger one.");
    }

    @Test
    void noVerdictNamesAReason() {
        RunSketch run = RunSketch.good();
        run.state = RunState.INTERRUPTED;
        run.stateReason = "Ctrl-C";
        Verdict verdict = Judge.judge(run.record());
        assertThat(verdict.outcome()).isEqualTo(Outcome.NO_VERDICT);
        assertThat(verdict.sentence())
                .isEqualTo("No verdict for Barn theatre, 32 tracks. The run was interrupted (Ctrl-C): let it finish.");
    }

    /** Exact Poisson bound: 2.9957 ÷ (10/60) h (Garwood 1936). */
    @Test
    void saysWhatAShortLookCannotShow() {
        assertThat(Judge.judge(RunSketch.good().record()).notes())
                .contains("No stall above 250 ms in the last take of 10 min. Up to 18 stalls an hour could"
                        + " still have been missed (95 %).");
    }

    @Test
    void saysHowLongADriveThatMaySleepWasLeftAlone() {
        RunSketch run = RunSketch.good();
        run.phase(PhaseKind.TAKE).start = new StartFacts(60, 40, null);
        String note =
                "Before its takes the drive was left alone for no more than 60 s: if it falls asleep only later, what"
                        + " waking it costs was not met. A full-show leaves it alone for 21 min.";
        assertThat(Judge.judge(run.record()).notes()).contains(note);
        run.phase(PhaseKind.TAKE).start = new StartFacts(21 * 60, 40, null);
        assertThat(Judge.judge(run.record()).notes()).noneMatch(each -> each.contains("asleep"));
    }

    /** The session writes 49.8 GB, the good sketch 84.1 GB. */
    @Test
    void saysWhatMoreBytesThanTheRunWroteMayBring() {
        RunSketch run = RunSketch.good();
        assertThat(Judge.judge(run.record()).notes())
                .contains(
                        "The run wrote 84.1 GB, and two shows write 99.5 GB: what the drive does only after more bytes"
                                + " than the run wrote was not met.");
        run.phase(PhaseKind.FILL).bytes = 96_000_000_000L;
        assertThat(Judge.judge(run.record()).notes()).noneMatch(each -> each.contains("two shows"));
    }

    @Test
    void isAPureFunctionOfSessionAndFacts() {
        RunRecord facts = RunSketch.good().record();
        Verdict first = Judge.judge(facts.session(), facts);
        Verdict other = new Verdict(Outcome.FAIL, "x", "y", "z", List.of(), List.of("r"), List.of("n"));
        assertThat(Judge.judge(facts.session(), facts.withVerdict(other))).isEqualTo(first);
        assertThat(Judge.judge(facts)).isEqualTo(first);
        assertThat(Judge.judge(RecordJson.read(RecordJson.bytes(facts.withVerdict(first)))))
                .isEqualTo(first);
    }

    @Test
    void everyCriterionIsToldEvenOfARunThatDidNothing() {
        RunSketch run = RunSketch.good();
        run.phases.clear();
        run.state = RunState.RUNNING;
        Verdict verdict = Judge.judge(run.record());
        assertThat(verdict.outcome()).isEqualTo(Outcome.NO_VERDICT);
        assertThat(verdict.criteria().stream().map(Criterion::id)).containsExactly(ORDER);
        assertThat(verdict.criteria().subList(0, 6)).allSatisfy(criterion -> {
            assertThat(criterion.met()).isNull();
            assertThat(criterion.measured()).isEqualTo("not tested");
            assertThat(criterion.sentence()).isNotBlank();
        });
    }

    static Criterion criterion(Verdict verdict, String id) {
        return verdict.criteria().stream()
                .filter(criterion -> criterion.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theLongestCloseIsJudgedNotTheFirst() {
        RunSketch run = RunSketch.good();
        run.phases.add(1, tracksoak.report.record.PhaseSketch.close());
        assertThat(Judge.judge(run.record()).outcome()).isEqualTo(Verdict.Outcome.PASS);
        run.phases.get(4).close = new tracksoak.report.record.facts.CloseFacts(0, 0, 20_000, 0, 0, 20_000, 32);

        Verdict verdict = Judge.judge(run.record());

        assertThat(verdict.outcome()).isEqualTo(Verdict.Outcome.FAIL);
        assertThat(verdict.sentence()).contains("took 20 s");
    }

    /** A run cut off in its first take leaves most criteria open, and all of them for one reason. */
    @Test
    void anInterruptedRunGivesOneReason() {
        RunSketch run = RunSketch.good();
        run.state = RunState.INTERRUPTED;
        run.phases.get(0).complete = false;
        run.phases.subList(1, run.phases.size()).clear();

        Verdict verdict = Judge.judge(run.record());

        assertThat(verdict.outcome()).isEqualTo(Verdict.Outcome.NO_VERDICT);
        assertThat(verdict.reasons()).singleElement().asString().contains("interrupted");
        assertThat(criterion(verdict, "intact").sentence()).startsWith("Not tested");
    }

    /** What a run to its end would not have settled either is said besides. */
    @Test
    void anInterruptedRunWithoutAFormatGivesBothReasons() {
        RunSketch run = RunSketch.good();
        run.state = RunState.INTERRUPTED;
        run.fileSystem = null;

        assertThat(Judge.judge(run.record()).reasons()).hasSize(2);
    }

    /** Nobody should trust a drive without hearing of a hang that its fill met. */
    @Test
    void aPauseThatTheTakeSettledStandsInTheVerdictAndBesideTheCriterion() {
        RunSketch run = RunSketch.good();
        run.phases.get(1).stalls.add(new Stall(1, 20_000, 0));
        run.phases.get(1).stalls.add(new Stall(900, 20_000, 0));
        PhaseSketch take = PhaseSketch.take(3 * 3600, RunSketch.DEMAND);
        run.phases.set(2, take);

        Verdict verdict = Judge.judge(run.record());
        Criterion stall = criterion(verdict, "longest-stall");

        assertThat(verdict.sentence())
                .contains("Flat out it paused for up to 20 s, which did no harm at the session's pace.");
        assertThat(stall.met()).isTrue();
        assertThat(stall.sentence())
                .startsWith("The drive never paused for more than 250 ms.")
                .contains("While it was filled flat out the drive paused 2 times, for up to 20 s.", "it did no harm");
    }

    @Test
    void whatIsLeftOpenOrLosesAudioIsSaidToDoNoHarmNowhere() {
        RunSketch run = RunSketch.good();
        run.phases.get(1).stalls.add(new Stall(1, 20_000, 0));
        PhaseSketch take = PhaseSketch.take(3 * 3600, RunSketch.DEMAND);
        run.phases.set(2, take);
        take.lostMs = 400;
        take.lostTrackMs = 800;
        assertThat(Judge.judge(run.record()).toString()).doesNotContain("no harm");

        run.phases.set(2, PhaseSketch.take(600, RunSketch.DEMAND));
        assertThat(Judge.judge(run.record()).toString())
                .doesNotContain("no harm")
                .contains("would tell");
    }
}
