package tracksoak.bench.inspect;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.report.record.facts.Verdict;

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
    @ValueSource(
            strings = {
                ".Trashes/501/TR01.wav",
                "show/.old/TR01.wav",
                "$RECYCLE.BIN/S-1/TR01.wav",
                "._TR01.wav",
                "lost+found/TR01.wav",
                "System Volume Information/TR01.wav"
            })
    void whatWasThrownAwayOrIsHiddenIsNoRecording(String path) {
        folder.take(path, wave());

        assertThat(folder.files()).isEmpty();
        assertThat(folder.others()).isOne();
    }

    /** What it means. */
    private InspectionJudge judged() {
        Inspection inspection = new Inspection(
                new Recordings(folder.files(), folder.broken(), folder.others(), null, false, "", ""),
                (done, all) -> {},
                () -> false);
        inspection.run();
        return new InspectionJudge(inspection.takes(), inspection.findings());
    }

    private static RecordedFile.Source refusing(IOException refused) {
        return () -> {
            throw refused;
        };
    }

    @Test
    void whatThisUserMayNotReadLeavesNoVerdict() {
        folder.take("TR01.wav", wave());
        folder.take("TR02.wav", refusing(new AccessDeniedException("/d/TR02.wav")));
        folder.refused("sub", new AccessDeniedException("/d/sub"));

        InspectionJudge judge = judged();

        assertThat(judge.outcome()).isEqualTo(Verdict.Outcome.NO_VERDICT);
        assertThat(judge.sentence())
                .startsWith("Nothing is missing from 1 track of")
                .endsWith("not all was looked into.");
        assertThat(judge.reasons())
                .singleElement()
                .satisfies(one -> assertThat(one)
                        .startsWith("TR02.wav and sub: not looked into")
                        .contains("run it as a user who may"));
        assertThat(judge.advice()).contains("a track may lie there").doesNotContain("listen");
    }

    @Test
    void whereNothingMayBeReadNothingIsPraised() {
        folder.refused("sub", new AccessDeniedException("/d/sub"));

        InspectionJudge judge = judged();

        assertThat(judge.outcome()).isEqualTo(Verdict.Outcome.NO_VERDICT);
        assertThat(judge.sentence()).isEqualTo("No recording could be looked into.");
    }

    @Test
    void whatTheDriveRefusesIsAFault() {
        folder.take("TR01.wav", wave());
        folder.refused("sub", new FileSystemException("/d/sub", null, "Input/output error"));

        InspectionJudge judge = judged();

        assertThat(judge.outcome()).isEqualTo(Verdict.Outcome.FAIL);
        assertThat(judge.sentence()).contains("sub: cannot be read", "Input/output error");
    }

    @ParameterizedTest
    @ValueSource(strings = {"lost+found", ".Trash-1000", "show/.Trashes", "System Volume Information", "$RECYCLE.BIN"})
    void whatSystemsKeepForThemselvesNeedNotBeReadable(String path) {
        folder.take("TR01.wav", wave());
        folder.refused(path, new AccessDeniedException("/d/" + path));

        assertThat(judged().outcome()).isEqualTo(Verdict.Outcome.PASS);
    }
}
