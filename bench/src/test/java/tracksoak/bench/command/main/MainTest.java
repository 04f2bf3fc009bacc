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
import org.junit.jupiter.api.io.TempDir;

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

    /** As earlier versions left them. */
    @Test
    void ourFoldersAreClosedToOtherUsersAtTheStart(@TempDir Path home) throws Exception {
        Process listing = shell(
                "umask 022; mkdir -p \"$HOME\"/state/tracksoak \"$HOME\"/data/tracksoak/records"
                        + " \"$HOME\"/cache/tracksoak && XDG_STATE_HOME=$HOME/state XDG_DATA_HOME=$HOME/data"
                        + " XDG_CACHE_HOME=$HOME/cache \"$@\" >/dev/null && stat -c %a \"$HOME\"/state/tracksoak"
                        + " \"$HOME\"/data/tracksoak \"$HOME\"/data/tracksoak/records \"$HOME\"/cache/tracksoak"
                        + " \"$HOME\"/state",
                home);
        String said = new String(listing.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(listing.waitFor()).isZero();
        assertThat(said.lines()).containsExactly("700", "700", "700", "700", "755");
    }

    private static Process shell(String script) throws Exception {
        return shell(script, Path.of(System.getProperty("user.home")));
    }

    private static Process shell(String script, Path home) throws Exception {
        List<String> words = new ArrayList<>(List.of("bash", "-c", script, "bash"));
        words.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        words.addAll(List.of(
                "-Xshare:auto", "-cp", System.getProperty("java.class.path"), Main.class.getName(), "sessions"));
        ProcessBuilder process = new ProcessBuilder(words);
        process.environment().put("HOME", home.toString());
        return process.start();
    }
}
