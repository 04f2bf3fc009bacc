package tracksoak;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** DEVELOPERS.md leads to files and rooms that are there. */
class DevelopersDocTest {

    private static final Path TOP = Path.of("..");
    private static final Pattern CLASS = Pattern.compile("`(?:[a-z]+/)*([A-Z][A-Za-z]*[a-z][A-Za-z]*)`");
    private static final Pattern ROOM =
            Pattern.compile("^\\| `((?:profiles|report|bench)[a-z/]*)` \\|", Pattern.MULTILINE);

    private final String text = read(TOP.resolve("DEVELOPERS.md"));

    @Test
    void every_class_it_names_is_there() throws IOException {
        Set<String> there;
        try (Stream<Path> files = Files.walk(TOP)) {
            there = files.map(file -> String.valueOf(file.getFileName()))
                    .filter(name -> name.endsWith(".java"))
                    .map(name -> name.substring(0, name.length() - ".java".length()))
                    .collect(Collectors.toSet());
        }

        assertThat(found(CLASS))
                .hasSizeGreaterThan(60)
                .allSatisfy(
                        name -> assertThat(there).as("a class called %s", name).contains(name));
    }

    @Test
    void its_map_has_one_line_for_each_room() {
        Set<String> rooms = new House()
                .rooms().keySet().stream()
                        .filter(room -> !room.equals("report.templates"))
                        .map(room -> room.replace('.', '/'))
                        .collect(Collectors.toCollection(TreeSet::new));

        assertThat(found(ROOM)).isEqualTo(rooms);
    }

    private Set<String> found(Pattern pattern) {
        Set<String> found = new TreeSet<>();
        Matcher matcher = pattern.matcher(text);
        while (matcher.find()) {
            found.add(matcher.group(1));
        }
        return found;
    }

    private static String read(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
