package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.WaveFormat;

class RecordingFolderTest {

    private final RecordingFolder folder = new RecordingFolder();

    private static RecordedFile.Source wave() {
        InventedRecording one = new InventedRecording(1, 48_000, 3, false, 10);
        one.put("any", new WaveFormat(1, 48_000, false, 3, 24), new byte[30]);
        return () -> new InventedRecording.InMemory(one.file("any"));
    }

    @Test
    void aRecordingIsFoundAmongTenThousandOtherFiles() {
        for (int i = 0; i < 10_000; i++) {
            folder.take("papers/" + i + ".txt", () -> {
                throw new AssertionError("looked into");
            });
        }
        folder.take("show/TR01.wav", wave());

        assertThat(folder.files()).extracting(RecordedFile::path).containsExactly("show/TR01.wav");
        assertThat(folder.others()).isEqualTo(10_000);
    }

    @ParameterizedTest
    @ValueSource(strings = {".Trashes/501/TR01.wav", "show/.old/TR01.wav", "$RECYCLE.BIN/S-1/TR01.wav", "._TR01.wav"})
    void whatWasThrownAwayOrIsHiddenIsNoRecording(String path) {
        folder.take(path, wave());

        assertThat(folder.files()).isEmpty();
        assertThat(folder.others()).isOne();
    }
}
