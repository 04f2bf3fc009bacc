package tracksoak.report.verdict;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.report.record.facts.Verdict.Outcome.FAIL;
import static tracksoak.report.record.facts.Verdict.Outcome.NO_VERDICT;
import static tracksoak.report.record.facts.Verdict.Outcome.PASS;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.Verdict;

/** One run judged for other sessions: only as far as its facts allow. The run: 32 tracks, buffer 2 s, 3 h. */
class JudgeOtherSessionTest {

    private final RunSketch run = RunSketch.good();

    private Verdict judge(Session session) {
        return Judge.judge(session, run.record());
    }

    private static Session buffer(double bufferS) {
        return RunSketch.session("barn-32-other", 32, SessionKind.RECORDING, 3 * 3600, bufferS);
    }

    @Test
    void fewerOfTheSameStreamsPassWithTheHarderRun() {
        Verdict verdict = judge(RunSketch.session("barn-16", 16));
        assertThat(verdict.outcome()).isEqualTo(PASS);
        assertThat(verdict.notes()).contains("The run was made for the session barn-32 and is judged for barn-16.");
        assertThat(verdict.session()).isEqualTo("barn-16");
    }

    @Test
    void aMissOfTheHarderRunSaysNothingOfTheEasierSession() {
        run.phases.get(0).lostMs = 20;
        run.phases.get(0).peakBacklogMs = 1900;
        Verdict verdict = judge(RunSketch.session("barn-16", 16));
        assertThat(verdict.outcome()).isEqualTo(NO_VERDICT);
        assertThat(JudgeTest.criterion(verdict, "lost-audio").measured()).isEqualTo("not tested");
        assertThat(JudgeTest.criterion(verdict, "buffer-margin").met()).isNull();
        assertThat(JudgeTest.criterion(verdict, "longest-stall").met()).isTrue();
    }

    @Test
    void moreStreamsAreNotTested() {
        Verdict verdict = judge(RunSketch.session("barn-48", 48));
        assertThat(verdict.outcome()).isEqualTo(NO_VERDICT);
        for (String id : new String[] {"lost-audio", "buffer-margin", "rate-margin", "longest-stall", "close-time"}) {
            assertThat(JudgeTest.criterion(verdict, id).met()).as(id).isNull();
            assertThat(JudgeTest.criterion(verdict, id).measured()).as(id).isEqualTo("not tested");
        }
        assertThat(JudgeTest.criterion(verdict, "intact").met()).isTrue();
    }

    @Test
    void whatTheEasierRunMissedTheHarderSessionMisses() {
        run.phases.get(0).lostMs = 20;
        run.phases.get(0).overruns.add(new Overrun(1, 20, 32, 0));
        assertThat(judge(RunSketch.session("barn-48", 48)).outcome()).isEqualTo(FAIL);
    }

    @ParameterizedTest
    @CsvSource({
        "400, 4, PASS, true",
        "400, 0.8, PASS, true",
        "400, 0.5, FAIL, true",
        "400, 0.4, FAIL, true",
        "400, 0.39, FAIL, false",
        "1500, 4, PASS, true"
    })
    void anotherBufferIsJudgedFromTheBacklog(double peakMs, double bufferS, Verdict.Outcome outcome, boolean kept) {
        run.phases.get(0).peakBacklogMs = peakMs;
        Verdict verdict = judge(buffer(bufferS));
        assertThat(verdict.outcome()).isEqualTo(outcome);
        assertThat(JudgeTest.criterion(verdict, "lost-audio").met()).isEqualTo(kept);
    }

    @Test
    void afterALossALargerBufferIsNotTestedAndASmallerOneLosesToo() {
        run.phases.get(0).lostMs = 20;
        run.phases.get(0).overruns.add(new Overrun(1, 20, 32, 0));
        Verdict larger = judge(buffer(8));
        assertThat(larger.outcome()).isEqualTo(NO_VERDICT);
        assertThat(JudgeTest.criterion(larger, "lost-audio").met()).isNull();
        assertThat(JudgeTest.criterion(larger, "buffer-margin").met()).isNull();
        Verdict smaller = judge(buffer(1));
        assertThat(smaller.outcome()).isEqualTo(FAIL);
        assertThat(JudgeTest.criterion(smaller, "buffer-margin").measuredValue())
                .isLessThanOrEqualTo(0.5);
    }

    /** Steady after 1 GB without a cliff proves nothing for a session that writes beyond what was seen. */
    @Test
    void aLongerSessionNeedsALongerFill() {
        run.phases.get(1).bytes = 50_000_000_000L;
        run.freeBytes = 2_000_000_000_000L;
        Session day = RunSketch.session("barn-32-day", 32, SessionKind.RECORDING, 24 * 3600, 2);
        Verdict verdict = judge(day);
        assertThat(JudgeTest.criterion(verdict, "rate-margin").met()).isNull();
        assertThat(verdict.outcome()).isEqualTo(NO_VERDICT);
    }

    @Test
    void aSessionTooLongForTheDriveFailsOnRoom() {
        Session long12 = RunSketch.session("barn-32-12h", 32, SessionKind.RECORDING, 14 * 3600, 2);
        assertThat(JudgeTest.criterion(judge(long12), "room").met()).isFalse();
    }

    @Test
    void aFinerStallLimitThanTheRunNotedIsNotTested() {
        Session old = RunSketch.session("barn-32", 32);
        Session finer = old.but()
                .stallLimitMs(100)
                .margins(new tracksoak.profiles.Margins(2, 2, 2, 2, 100, 10_000))
                .build();
        assertThat(JudgeTest.criterion(judge(finer), "longest-stall").met()).isNull();
    }
}
