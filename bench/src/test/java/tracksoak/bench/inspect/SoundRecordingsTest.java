package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.LongStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.report.record.facts.Verdict;

/** Nothing is found in a sound recording: 30 of them in each build, 1,000 at night. */
class SoundRecordingsTest {

    private static void nothingIsFoundIn(long seed) {
        int rate = new int[] {44_100, 48_000, 96_000}[(int) (seed % 3)];
        int bytes = new int[] {2, 3, 3, 4}[(int) (seed % 4)];
        InventedRecording recording = seed % 5 == 0
                ? InventedRecording.ofSignal(seed, rate, bytes, 4, 3)
                : InventedRecording.ofMusic(seed, rate, bytes, bytes == 4 && seed % 2 == 0, 6, 4);
        Inspection inspection = recording.inspected();

        InspectionJudge judge = new InspectionJudge(inspection.takes(), inspection.findings());
        assertThat(judge.outcome())
                .as("seed %d: %s", seed, inspection.findings())
                .isEqualTo(Verdict.Outcome.PASS);
    }

    @Test
    void nothingIsFoundInSoundRecordings() {
        LongStream.range(0, 30).forEach(SoundRecordingsTest::nothingIsFoundIn);
    }

    @Tag("nightly")
    @ParameterizedTest
    @ValueSource(longs = {1_000, 1_250, 1_500, 1_750})
    void norInAThousand(long first) {
        LongStream.range(first, first + 250).parallel().forEach(SoundRecordingsTest::nothingIsFoundIn);
    }
}
