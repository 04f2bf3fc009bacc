package tracksoak.profiles;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class SessionFieldsTest {

    private static final Path MADE = Path.of("src/main/resources/tracksoak/shipped");

    @Test
    void whatIsWrittenIsRead() {
        RandomSessions sessions = new RandomSessions(31);
        for (int i = 0; i < 500; i++) {
            Session session = sessions.next();
            Session odd = session.but().about("a\u0000~0~1\n" + i).build();
            assertThat(SessionFields.read(SessionFields.write(session))).isEqualTo(session);
            assertThat(SessionFields.read(SessionFields.write(odd))).isEqualTo(odd);
            assertThat(SessionFields.write(odd)).doesNotContain("\u0000");
        }
    }

    /** Where this fails after a change of a session: -Dtracksoak.writeShipped=true makes the texts anew. */
    @Test
    void theShippedTextsAreThoseOfTheTomlFiles() throws IOException {
        boolean write = Boolean.getBoolean("tracksoak.writeShipped");
        try (Stream<Path> files = Files.list(Path.of("sessions"))) {
            List<Path> tomls = files.sorted().toList();
            for (Path toml : tomls) {
                Session session = SessionReader.read(toml);
                String text = SessionFields.write(session);
                Path made = MADE.resolve(session.name() + ".txt");
                if (write) {
                    Files.createDirectories(MADE);
                    Files.writeString(made, text);
                    continue;
                }
                assertThat(made).as("%s", toml).hasContent(text);
                assertThat(SessionCatalog.shipped().find(session.name())).isEqualTo(session);
                assertThat(SessionCatalog.shippedText(session.name()))
                        .hasValueSatisfying(bytes ->
                                assertThat(new String(bytes, UTF_8)).contains("name = \"" + session.name() + "\""));
            }
        }
    }

    @Test
    void whatWasCutIsSaidSo() {
        String whole = SessionFields.write(SessionCatalog.shipped().find("two-rates"));
        for (int end = 0; end < whole.length(); end++) {
            String cut = whole.substring(0, end);
            assertThatThrownBy(() -> SessionFields.read(cut)).isInstanceOf(IllegalStateException.class);
        }
    }
}
