package tracksoak.bench.simulated.catalog;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import tracksoak.bench.simulated.Behaviour;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.ProfileException;

/** Keeps docs/simulated.md true: every behaviour, every key, every range, every example. */
class SimulatedDocTest {

    private static final Pattern SECTION = Pattern.compile("\n### ([a-z-]+)\n(.*?)(?=\n### |\\z)", Pattern.DOTALL);
    private static final Pattern ROW = Pattern.compile("\\| `([a-z_]+)` \\| ([^|]+) \\| [^|]+ \\|");
    private static final Pattern FENCED = Pattern.compile("```toml\n(.*?)```", Pattern.DOTALL);
    private static final String HEAD = "name = \"example\"\nseed = 1\nsize = \"64 GB\"\n\n";

    private final String doc = Files.readString(Path.of("..", "docs", "simulated.md"));
    private final Map<String, String> sections = new LinkedHashMap<>();

    SimulatedDocTest() throws IOException {
        Matcher section = SECTION.matcher(doc);
        while (section.find()) {
            sections.put(section.group(1), section.group(2));
        }
    }

    @Test
    void listsEveryBehaviourThereIsAndNoOther() {
        assertThat(BehaviourKinds.all()).hasSizeGreaterThan(20);
        assertThat(sections.keySet())
                .containsExactlyInAnyOrderElementsOf(BehaviourKinds.all().keySet());
    }

    @Test
    void everyExampleIsADrive() {
        Matcher first = FENCED.matcher(doc);
        assertThat(first.find()).isTrue();
        assertThat(DriveReader.read(first.group(1), "my-stick.toml").behaviours())
                .hasSize(2);
        sections.forEach((kind, section) -> {
            DriveModel model = DriveReader.read(HEAD + example(section), kind + ".toml");
            assertThat(model.behaviours())
                    .as(kind)
                    .singleElement()
                    .satisfies(behaviour -> assertThat(
                                    BehaviourKinds.word(behaviour.getClass().getSimpleName()))
                            .isEqualTo(kind));
        });
    }

    @Test
    void givesEveryKeyWithItsRangeAsTheReaderDoes() {
        sections.forEach((kind, section) -> {
            Map<String, String> rows = new LinkedHashMap<>();
            Matcher row = ROW.matcher(section);
            while (row.find()) {
                rows.put(row.group(1), row.group(2));
            }
            List<BehaviourKey> keys = keys(kind);
            assertThat(rows.keySet())
                    .as(kind)
                    .containsExactlyElementsOf(
                            keys.stream().map(BehaviourKey::toml).toList());
            keys.forEach(key -> holds(kind, key, String.valueOf(rows.get(key.toml())), example(section)));
        });
    }

    private static void holds(String kind, BehaviourKey key, String range, String example) {
        if (range.endsWith("or more, or \"never\"")) {
            DriveReader.read(HEAD + with(example, key, "\"never\""), kind);
            return;
        }
        ProfileError error = errorOf(HEAD + with(example, key, beyond(key)), kind, key);
        if (!range.contains("`")) {
            assertThat(error.allowed()).as(kind + " " + key.toml()).isEqualTo(range);
        }
    }

    private static ProfileError errorOf(String toml, String kind, BehaviourKey key) {
        ProfileException thrown =
                catchThrowableOfType(ProfileException.class, () -> DriveReader.read(toml, kind + ".toml"));
        assertThat(thrown).as(toml).isNotNull();
        return thrown.errors().stream()
                .filter(error -> error.key().equals("behaviour[0]." + key.toml()))
                .findFirst()
                .orElseThrow(() -> new AssertionError(thrown.getMessage()));
    }

    private static String beyond(BehaviourKey key) {
        if (key.type() == boolean.class || key.type().isEnum()) {
            return "\"something\"";
        }
        return switch (key.unit()) {
            case RATE -> "\"10 GB/s\"";
            case SIZE -> "\"2000 TiB\"";
            case TIME -> "\"25 h\"";
            case SHARE -> "\"10001 %\"";
            case PLAIN -> "2000000000";
        };
    }

    private static String with(String example, BehaviourKey key, String value) {
        Pattern line = Pattern.compile("(?m)^" + key.toml() + " = .*$");
        assertThat(example).containsPattern(line);
        return line.matcher(example).replaceFirst(key.toml() + " = " + value);
    }

    private static String example(String section) {
        Matcher fenced = FENCED.matcher(section);
        assertThat(fenced.find()).as(section).isTrue();
        return fenced.group(1);
    }

    private static List<BehaviourKey> keys(String kind) {
        Class<? extends Behaviour> type =
                Objects.requireNonNull(BehaviourKinds.all().get(kind), kind);
        return Arrays.stream(type.getRecordComponents()).map(BehaviourKey::of).toList();
    }
}
