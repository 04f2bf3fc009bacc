package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.EOFException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.ConnectException;
import java.net.UnknownHostException;
import java.nio.channels.ClosedChannelException;
import java.nio.file.AccessDeniedException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.FileSystemException;
import java.nio.file.NoSuchFileException;
import java.util.List;
import org.junit.jupiter.api.Test;

class FailureTest {

    @Test
    void whatFailedIsSaidInWordsAfterItsFile() {
        assertThat(Failure.told(new NoSuchFileException("/media/a")))
                .isEqualTo("/media/a: there is no such file or folder");
        assertThat(Failure.told(new FileSystemException("/media/a", "/media/b", "Invalid cross-device link")))
                .isEqualTo("/media/a -> /media/b: Invalid cross-device link");
        assertThat(Failure.words(new FileSystemException("/media/a", null, "Input/output error")))
                .isEqualTo("Input/output error");
        assertThat(Failure.told(new UnknownHostException("nowhere")))
                .isEqualTo("nowhere: no computer of that name is known");
        assertThat(Failure.told(new IOException("No space left on device"))).isEqualTo("No space left on device");
        assertThat(Problem.reason(new AccessDeniedException("/media/\u202ea")))
                .isEqualTo("/media/[U+202E]a: it is not allowed");
    }

    @Test
    void noNameOfAClassIsSaid() {
        for (Exception failed : List.of(
                new NoSuchFileException("a"),
                new ConnectException(),
                new ConnectException("Connection refused"),
                new IOException(new ConnectException()),
                new IOException((String) null),
                new EOFException(),
                new ClosedChannelException(),
                new FileSystemException("a"),
                new UncheckedIOException(new NoSuchFileException("a")),
                new DirectoryIteratorException(new AccessDeniedException("a")))) {
            assertThat(Problem.reason(failed))
                    .doesNotContain("Exception", "null")
                    .isNotBlank();
        }
    }
}
