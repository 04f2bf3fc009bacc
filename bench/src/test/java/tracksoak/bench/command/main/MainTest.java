package tracksoak.bench.command.main;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;

/** The process as a shell sees it. */
@Tag("program")
@EnabledOnOs(OS.LINUX)
class MainTest {

    @Test
    void whatCannotBePrintedIsNoSuccess() throws Exception {
        Process full = shell("\"$@\" >/dev/full");
        String said = new String(full.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(full.waitFor()).as(said).isEqualTo(3);
        assertThat(said).contains("not all that was to be printed could be written");
    }

    @Test
    void aReaderWhoWantsNoMoreIsNoTrouble() throws Exception {
        Process cut = shell("set -o pipefail; \"$@\" | true");
        String said = new String(cut.getErrorStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(cut.waitFor()).as(said).isZero();
        assertThat(said).isEmpty();
    }

    private static Process shell(String script) throws Exception {
        List<String> words = new ArrayList<>(List.of("bash", "-c", script, "bash"));
        words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        words.addAll(List.of(
                "-Xshare:auto", "-cp", System.getProperty("java.class.path"), Main.class.getName(), "sessions"));
        return new ProcessBuilder(words).start();
    }
}
