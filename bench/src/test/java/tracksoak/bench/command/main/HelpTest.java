package tracksoak.bench.command.main;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.simulated.catalog.SimulatedDrives;

class HelpTest {

    /** Lines of a terminal window that is not the smallest. */
    private static final int SCREEN = 44;

    @TempDir
    Path folder;

    private Typed type(String... words) {
        return Typed.run(new TestRooms(folder, List.of()), words);
    }

    @ParameterizedTest
    @ValueSource(strings = {"qualify", "requalify", "climb", "drill", "report", "drives", "demo", "roster", "sessions"})
    void helpFitsOnOneScreen(String command) {
        Typed typed = type(command, "--help");
        assertThat(typed.code()).isZero();
        assertThat(typed.out().lines().count()).isLessThanOrEqualTo(SCREEN);
        assertThat(typed.err()).isEmpty();
    }

    @Test
    void valuesOfSessionsHaveAHelpOfTheirOwn() {
        assertThat(type("qualify", "--help").out()).contains("--help-values").doesNotContain("--stall-limit");
        assertThat(type("qualify", "--help-values").out())
                .contains("--stall-limit", "A wait for a finished chunk longer than this is a stall: 250ms.")
                .doesNotContain("--dry-run");
    }

    /** What is said of an option is on the page whole, and man(1) itself finds nothing wrong with it. */
    @Test
    void aManualPageSaysAllThatACommandSaysOfItself() throws Exception {
        String page = type("man", "qualify").out();
        assertThat(page)
                .startsWith(".TH \"TRACKSOAK-QUALIFY\" 1")
                .contains(
                        ".SH NAME",
                        ".SH SYNOPSIS",
                        "\\fB\\-p, \\-\\-plan=PLAN\\fR",
                        "Takes hours.",
                        "\\fB\\-\\-stall\\-limit=TIME\\fR",
                        ".SH EXIT STATUS",
                        "NO VERDICT");
        assertThat(page.lines().filter(line -> line.startsWith(".")).map(line -> line.split(" ", -1)[0]))
                .containsOnly(".TH", ".SH", ".SS", ".TP", ".PP", ".nf", ".fi");
        Path groff = Path.of("/usr/bin/groff");
        if (Files.isExecutable(groff)) {
            Path file = Files.writeString(folder.resolve("page.1"), page);
            Process check = new ProcessBuilder(groff.toString(), "-man", "-Tascii", "-ww", "-z", file.toString())
                    .redirectErrorStream(true)
                    .start();
            String said = new String(check.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(check.waitFor(1, TimeUnit.MINUTES)).isTrue();
            assertThat(said).isEmpty();
        }
    }

    @Test
    void everyCommandHasItsPage() throws Exception {
        Path pages = folder.resolve("man1");
        assertThat(type("man", "--out", pages.toString()).code()).isZero();
        try (Stream<Path> written = Files.list(pages)) {
            assertThat(written.map(it -> it.getFileName().toString()))
                    .contains("tracksoak.1", "tracksoak-qualify.1", "tracksoak-roster-list.1");
        }
        assertThat(type("man", "nonsense").code()).isEqualTo(2);
    }

    @Test
    void theShellIsToldWordsAndTheirMeanings() {
        assertThat(type("completion", "--words", "sessions").out()).contains("band-32\t32 tracks of a band");
        assertThat(type("completion", "--words", "simulated").out().lines())
                .hasSize(SimulatedDrives.names().size())
                .contains("hiccup-card\ta card with many short stops, seldom a long one");
    }

    /** The code is tried in bash itself: one match is completed alone, several are listed with their meanings. */
    @Test
    void bashCompletesSessionsWithTheirMeanings() throws Exception {
        Path script = Files.writeString(
                folder.resolve("completion"), type("completion").out());
        String sessions = type("completion", "--words", "sessions").out();
        Path list = Files.writeString(folder.resolve("sessions"), sessions);
        String shell = "source '" + script + "'; tracksoak() { cat '" + list + "'; };"
                + " COMP_WORDS=(tracksoak qualify --session %s); COMP_CWORD=3; _tracksoak_meanings;"
                + " printf '%%s\\n' \"${COMPREPLY[@]}\"";
        assertThat(bash(shell.formatted("trio-8"))).containsExactly("trio-8");
        assertThat(bash(shell.formatted("''"))).anyMatch(line -> line.matches("band-32 +\\(32 tracks of a band.*\\)"));
    }

    private static List<String> bash(String script) throws Exception {
        Process bash = new ProcessBuilder("bash", "-c", script)
                .redirectErrorStream(true)
                .start();
        String said = new String(bash.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(bash.waitFor(1, TimeUnit.MINUTES)).isTrue();
        return said.lines().toList();
    }
}
