package tracksoak.bench.command.console;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.report.record.facts.PhaseKind;

class ProgressTextTest {

    static Progress progress(PhaseKind kind, int step, double leftS, double lostMs, double backlogMs) {
        return progress(kind, step, leftS, -1, lostMs, backlogMs);
    }

    private static Progress progress(
            PhaseKind kind, int step, double leftS, double phaseLeftS, double lostMs, double backlogMs) {
        return new Progress(
                kind,
                step,
                5,
                83,
                leftS,
                phaseLeftS,
                32,
                lostMs > 0 ? 30 : 32,
                backlogMs,
                610,
                2000,
                95,
                lostMs,
                8_200_000_000L,
                14_200_000,
                3);
    }

    @Test
    void aTakeShowsTracksBacklogWorstAndRate() {
        assertThat(ProgressText.of(progress(PhaseKind.TAKE, 2, 217, 0, 310)))
                .isEqualTo(
                        "2/5 take, about 4 min left  32/32 tracks  backlog [##........] 310 of 2000 ms, worst 610 ms  14.2 MB/s");
    }

    @Test
    void theTimeLeftOfThePhaseStandsInForThatOfTheRun() {
        assertThat(ProgressText.of(progress(PhaseKind.TAKE, 1, -1, 97, 0, 310)))
                .startsWith("1/5 take, about 2 min of it left  ");
    }

    @Test
    void lostAudioIsSaid() {
        assertThat(ProgressText.of(progress(PhaseKind.TAKE, 2, -1, 120, 5000)))
                .isEqualTo(
                        "2/5 take, 1:23 so far  30/32 tracks, 120 ms lost  backlog [##########] 5000 of 2000 ms, worst 610 ms  14.2 MB/s");
    }

    @Test
    void otherPhasesShowWhatTheyHave() {
        assertThat(ProgressText.of(progress(PhaseKind.FILL, 3, 11_100, 0, 0)))
                .isEqualTo("3/5 fill, about 3 h left  8.2 GB written  longest write 95 ms  14.2 MB/s");
        assertThat(ProgressText.of(progress(PhaseKind.CLOSE, 4, 7, 0, 0)))
                .isEqualTo("4/5 close, about 10 s left  from stop to safe to unplug");
        assertThat(ProgressText.of(progress(PhaseKind.READ_BACK, 5, 60, 0, 0)))
                .isEqualTo("5/5 read-back, about 1 min left  8.2 GB read  14.2 MB/s");
    }
}
