package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Every test that docs/faults.md names exists, and every row of its table names one and leaves no cell blank. */
class FaultsDocTest {

    private static final Path TESTS = Path.of("src/test/java");
    private static final Pattern NAMED = Pattern.compile("`(\\w+Test)?\\.?([…\\w]+)?`");

    @Test
    void everyTestNamedExists() throws IOException {
        List<String> unknown = new ArrayList<>();
        int rows = 0;
        for (String row : rows()) {
            String[] cells = row.split("\\|", -1);
            assertThat(cells).as(row).hasSize(6);
            rows++;
            Matcher name = NAMED.matcher(cells[5]);
            String source = "";
            int names = 0;
            while (name.find()) {
                names++;
                if (name.group(1) != null) {
                    source = source(name.group(1));
                }
                String method = name.group(2);
                if (source.isEmpty() || (method != null && !declares(source, method))) {
                    unknown.add(name.group());
                }
            }
            assertThat(names).as(row).isPositive();
            assertThat(cells[4].strip()).as("left on the drive: " + row).isNotEmpty();
        }
        assertThat(rows).isGreaterThan(20);
        assertThat(unknown)
                .as("tests that docs/faults.md names and nobody wrote")
                .isEmpty();
    }

    /** {@code startsWith…} and {@code …EndsWith} stand for longer names. */
    private static boolean declares(String source, String named) {
        String name = named.startsWith("…") ? "\\w+" + named.substring(1) : named;
        name = name.endsWith("…") ? name.substring(0, name.length() - 1) + "\\w*" : name;
        return Pattern.compile("\\bvoid " + name + "\\(").matcher(source).find();
    }

    private static List<String> rows() throws IOException {
        try (Stream<String> lines = Files.lines(Path.of("../docs/faults.md"), StandardCharsets.UTF_8)) {
            return lines.filter(line -> line.startsWith("| "))
                    .filter(line -> !line.startsWith("| fault |") && !line.startsWith("| --- |"))
                    .map(line -> line.substring(0, line.length() - 1))
                    .toList();
        }
    }

    private static String source(String test) throws IOException {
        try (Stream<Path> files = Files.walk(TESTS)) {
            Path file = files.filter(path -> path.endsWith(test + ".java"))
                    .findFirst()
                    .orElse(null);
            return file == null ? "" : Files.readString(file, StandardCharsets.UTF_8);
        }
    }
}
