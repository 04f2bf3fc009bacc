package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.Quantity;

/** Keeps docs/sessions.md true: it is what people write their profiles by. */
class SessionDocsTest {
    private final String docs = Files.readString(Path.of("..", "docs", "sessions.md"));
    private final String example = fenced("```toml\n");

    SessionDocsTest() throws IOException {}

    @Test
    void givesTheRangeOfEveryKeyAsTheReaderDoes() {
        String table = docs.replace("[[", "").replace("]]", "").replace("[margins]", "margins");
        for (Key key : Key.values()) {
            String range = key == Key.FILE_SYSTEMS
                    ? "what the recorder accepts: " + String.join(", ", ProfileWords.FILE_SYSTEMS)
                    : "| `" + key.toml() + "` | " + key.allowed() + " |";
            assertThat(table).as(key.toml()).contains(range);
        }
    }

    /** The command line tests its side of the same table. */
    @Test
    void takesEverySpellingThatIsWrittenDown() {
        Matcher row = Pattern.compile("(?m)^\\| (size|time|sample rate) \\| (.+?) \\|")
                .matcher(docs);
        int spellings = 0;
        while (row.find()) {
            for (String quoted : row.group(2).split(", ", -1)) {
                String text = quoted.replace("`", "");
                double value = switch (row.group(1)) {
                    case "size" -> Quantity.bytes(text);
                    case "time" -> Quantity.exactTime(text);
                    default -> Quantity.hertz(text);
                };
                assertThat(value).as(text).isPositive();
                spellings++;
            }
        }
        assertThat(spellings).isGreaterThan(12);
    }

    @Test
    void namesEveryShippedSession() {
        assertThat(SessionCatalog.shipped().all())
                .allSatisfy(s -> assertThat(docs).contains("`" + s.name() + "`"));
    }

    @Test
    void showsAProfileThatIsRightAndAnErrorAsItIsShown() {
        assertThat(SessionReader.read(example, "spring-tour.toml").tracks()).isEqualTo(24);
        assertThatThrownBy(() -> SessionReader.read(example.replace("writers = 1", "writers = 40"), "spring-tour.toml"))
                .hasMessage(fenced("```\n").strip());
    }

    private String fenced(String fence) {
        int start = docs.indexOf("\n" + fence, fence.equals("```\n") ? docs.indexOf("## When something") : 0);
        assertThat(start).as(fence).isNotNegative();
        return docs.substring(start + 1 + fence.length(), docs.indexOf("\n```", start + 1 + fence.length()) + 1);
    }
}
