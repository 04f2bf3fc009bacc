package tracksoak.bench.drive.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class RecordedPlaceTest {

    @Test
    void aMountGoesByItsLastName() {
        assertThat(RecordedPlace.of("/media/ada/SHOW A")).isEqualTo("SHOW A");
        assertThat(RecordedPlace.of("/run/media/ada/SHOW A/")).isEqualTo("SHOW A");
        assertThat(RecordedPlace.of("E:\\")).isEqualTo("E:\\");
        assertThat(RecordedPlace.of("C:\\Users\\ada\\drives\\SHOW A")).isEqualTo("SHOW A");
        assertThat(RecordedPlace.of("/")).isEqualTo("/");
        assertThat(RecordedPlace.of((String) null)).isNull();
    }

    @Test
    void theAccountsNameIsNoMount() {
        assertThat(RecordedPlace.of("/home/" + System.getProperty("user.name"))).isNull();
    }

    @Test
    void aFolderGoesByItsOwnName() {
        assertThat(RecordedPlace.of(Path.of("/home/ada/shows/tracksoak-1"))).isEqualTo("tracksoak-1");
    }

    @Test
    void aFailureNamesNoPath() {
        assertThat(RecordedPlace.of(new FileSystemException("/media/ada/SHOW A/x.soak", null, "Input/output error")))
                .isEqualTo("x.soak: Input/output error");
        assertThat(RecordedPlace.of(new NoSuchFileException("/media/ada/SHOW A/x.soak")))
                .isEqualTo("x.soak: there is no such file or folder");
        assertThat(RecordedPlace.of(new IOException("Input/output error"))).isEqualTo("Input/output error");
    }

    @Test
    void aPathInsideAnotherErrorIsCutToItsName() {
        assertThat(RecordedPlace.of(new java.io.UncheckedIOException(
                        new FileSystemException("/home/ada/shows/x.soak", null, "Input/output error"))))
                .isEqualTo("x.soak: Input/output error");
        assertThat(RecordedPlace.of(new IllegalStateException("cannot keep \"/home/ada/shows/x.soak\" at 12 MB/s")))
                .isEqualTo("cannot keep \"x.soak\" at 12 MB/s");
        assertThat(RecordedPlace.of(new IllegalStateException("no C:\\Users\\ada\\x.soak, I/O")))
                .isEqualTo("no x.soak, I/O");
    }
}
