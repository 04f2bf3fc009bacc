package tracksoak.bench.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * The Windows launcher, as far as a machine without Windows can tell: what cmd.exe needs of a batch file (cmd /?, call /?, for
 * /?), and that it does as the shell's launcher does.
 */
class WindowsLauncherTest {

    private static final Pattern CALLED = Pattern.compile("call :([a-z]+)");

    private final String text = read("tracksoak.cmd");
    private final List<String> lines = text.lines().toList();

    private static String read(String name) {
        try {
            return Files.readString(Path.of("..", name), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    void itIsPlainAsciiWithTheLineEndsByWhichLabelsAreFound() {
        assertThat(text.chars()).allMatch(letter -> letter < 127);
        assertThat(text.replace("\r\n", "")).doesNotContain("\n").doesNotContain("\r");
    }

    @Test
    void everyLabelCalledIsThereAndEveryPartEndsBeforeTheNextBegins() {
        CALLED.matcher(text).results().forEach(call -> assertThat(lines).contains(":" + call.group(1)));
        for (int i = 1; i < lines.size(); i++) {
            if (lines.get(i).startsWith(":")) {
                assertThat(lines.subList(i - 2, i)).as(lines.get(i)).anyMatch(line -> line.startsWith("exit /b"));
            }
        }
        assertThat(lines.get(lines.size() - 1)).startsWith("exit /b");
    }

    @Test
    void pathsMayHoldSpacesAndExclamationMarks() {
        assertThat(text).contains("DisableDelayedExpansion");
        for (String line : lines) {
            for (String variable : List.of("%home%", "%jar%", "%java%", "%JAVA_HOME%", "%ProgramFiles%")) {
                for (int at = line.indexOf(variable); at >= 0; at = line.indexOf(variable, at + 1)) {
                    long before = line.substring(0, at)
                            .chars()
                            .filter(letter -> letter == '"')
                            .count();
                    assertThat(before % 2).as(line).isOne();
                }
            }
        }
    }

    @Test
    void bracketsInsideABlockAreEscaped() {
        boolean inside = false;
        for (String line : lines) {
            if (inside && !line.equals(")")) {
                assertThat(line.replace("^(", "").replace("^)", ""))
                        .doesNotContain("(")
                        .doesNotContain(")");
            }
            inside = line.endsWith("(") || (inside && !line.equals(")"));
        }
        assertThat(inside).isFalse();
    }

    @Test
    void itBuildsAndMeasuresAsTheShellsLauncherDoes() {
        String shell = read("tracksoak");
        for (String shared : List.of(
                "tracksoak-bench-1.0.0-SNAPSHOT-all.jar",
                "-Dmaven.test.skip=true",
                "-Dspotless.check.skip=true",
                "-Dforbiddenapis.skip=true package",
                "-Xms112m -Xmx112m",
                "-XX:+AlwaysPreTouch",
                "-XX:MaxDirectMemorySize=1g",
                "-Xlog:disable -Xlog:all=error:stderr")) {
            assertThat(shell).contains(shared);
            assertThat(text).contains(shared);
        }
        String measuring = shell.lines()
                .map(String::strip)
                .filter(line -> line.startsWith("qualify |"))
                .findFirst()
                .orElseThrow()
                .replace(" |", "")
                .replace(")", "");
        assertThat(text).contains("(" + measuring + ")");
    }
}
