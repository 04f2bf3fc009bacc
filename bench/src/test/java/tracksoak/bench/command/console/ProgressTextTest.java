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

    private static String shown(Progress progress) {
        return ProgressText.of(progress, 80);
    }

    @Test
    void aTakeShowsTheWorstSoFarInEightyColumns() {
        assertThat(shown(progress(PhaseKind.TAKE, 2, 217, 0, 310)))
                .isEqualTo("2/5 take, about 4 min left  [##........] 310 ms, worst 610 ms of 2 s  14.2 MB/s");
    }

    /** Whatever it has to say, it fits into a terminal of the usual width, and the worst is the last to go but for audio that is lost. */
    @Test
    void whatMattersLeastGoesFirst() {
        for (double leftS : new double[] {-1, 217, 11_100, 400_000}) {
            for (double lostMs : new double[] {0, 120, 81_000}) {
                Progress progress = progress(PhaseKind.TAKE, 2, leftS, lostMs, 1700);
                for (int columns : new int[] {60, 80, 100}) {
                    assertThat(ProgressText.of(progress, columns))
                            .hasSizeLessThan(columns)
                            .contains(lostMs > 0 && columns < 80 ? "LOST" : "worst 610 ms");
                }
            }
        }
    }

    @Test
    void theTimeLeftOfThePhaseStandsInForThatOfTheRun() {
        assertThat(shown(progress(PhaseKind.TAKE, 1, -1, 97, 0, 310))).startsWith("1/5 take, about 2 min of it left  ");
    }

    @Test
    void lostAudioIsSaid() {
        assertThat(ProgressText.of(progress(PhaseKind.TAKE, 2, -1, 120, 5000), 120))
                .isEqualTo("2/5 take, 1:23 so far  [##########] 5 s, worst 610 ms of 2 s  LOST 120 ms on 2 tracks  14.2"
                        + " MB/s");
    }

    @Test
    void otherPhasesShowWhatTheyHave() {
        assertThat(shown(progress(PhaseKind.FILL, 3, 11_100, 0, 0)))
                .isEqualTo("3/5 fill, about 3 h left  8.2 GB written  longest write 95 ms  14.2 MB/s");
        assertThat(shown(progress(PhaseKind.CLOSE, 4, 7, 0, 0)))
                .isEqualTo("4/5 close, about 10 s left  from stop to safe to unplug");
        assertThat(shown(progress(PhaseKind.READ_BACK, 5, 60, 0, 0)))
                .isEqualTo("5/5 read-back, about 1 min left  8.2 GB read  14.2 MB/s");
    }
}
