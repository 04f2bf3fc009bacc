package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

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
                    ? "what the recorder accepts: " + String.join(", ", Words.FILE_SYSTEMS)
                    : "| `" + key.toml() + "` | " + key.allowed() + " |";
            assertThat(table).as(key.toml()).contains(range);
        }
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
