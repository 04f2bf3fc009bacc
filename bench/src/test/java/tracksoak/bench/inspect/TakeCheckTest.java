package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.TrackFiles;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.bench.recording.WaveHeader;
import tracksoak.report.record.facts.inspection.FindingKind;

class TakeCheckTest {

    private static final int RATE = 48_000;
    private static final long EVENING = 19L * 3600;

    /** A track that begins and ends so many samples after the evening began. */
    private static TrackLine track(String name, int rate, long begin, long end) {
        WaveFormat format = new WaveFormat(1, rate, false, 3, 24);
        long bytes = (end - begin) * format.frameBytes();
        WaveHeader header = new WaveHeader(
                WaveHeader.Container.RIFF,
                format,
                44,
                bytes,
                bytes,
                44 + bytes,
                WaveHeader.Finish.DONE,
                0,
                44 + bytes,
                EVENING * rate + begin);
        RecordedFile file = new RecordedFile(name + ".wav", header, () -> {
            throw new IOException("nothing there");
        });
        return TrackLine.of(new TrackFiles(name, List.of(file), null, -1), (double) EVENING);
    }

    @Test
    void aTrackThatStartsLateAndEndsEarlyIsShortByItsEndOnly() {
        List<Found> found = TakeCheck.of(List.of(
                track("1", RATE, 0, 480_000),
                track("2", RATE, 0, 480_000),
                track("3", RATE, 0, 480_000),
                track("4", RATE, 144_000, 456_000)));

        assertThat(found)
                .filteredOn(one -> one.kind() == FindingKind.UNEQUAL_LENGTH)
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.where()).isEqualTo("4");
                    assertThat(one.detail()).isEqualTo("shorter");
                    assertThat(one.samples()).isEqualTo(24_000);
                });
        assertThat(found)
                .filteredOn(one -> one.kind() == FindingKind.UNEQUAL_START)
                .singleElement()
                .satisfies(one -> assertThat(one.samples()).isEqualTo(144_000));
    }

    @ParameterizedTest
    @ValueSource(ints = {44_100, 48_000, 96_000})
    void aTrackThatStartsLateAndEndsWithTheOthersIsLongEnoughAtAnyRate(int rate) {
        assertThat(TakeCheck.of(List.of(
                        track("1", RATE, 0, 480_000),
                        track("2", RATE, 0, 480_000),
                        track("3", RATE, 0, 480_000),
                        track("4", rate, 3L * rate, 10L * rate))))
                .noneMatch(one -> one.kind() == FindingKind.UNEQUAL_LENGTH);
    }
}
