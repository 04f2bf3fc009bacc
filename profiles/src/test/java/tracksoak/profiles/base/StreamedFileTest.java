package tracksoak.profiles.base;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A file too large to be held at once is there whole or not at all. */
class StreamedFileTest {

    @TempDir
    Path folder;

    @Test
    void aDiskThatGetsFullLeavesNothingAndBlocksNoSecondTry() throws IOException {
        Path file = folder.resolve("crew.roster");
        assertThatThrownBy(() -> AtomicFile.create(file, out -> {
                    out.write(new byte[100_000]);
                    throw new IOException("No space left on device");
                }))
                .hasMessage("No space left on device");
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).isEmpty();
        }
        assertThat(AtomicFile.create(file, out -> out.write("whole".getBytes(UTF_8))))
                .isTrue();
        assertThat(file).hasContent("whole");
        assertThat(AtomicFile.create(file, out -> out.write("other".getBytes(UTF_8))))
                .isFalse();
        assertThat(file).hasContent("whole");
    }
}
