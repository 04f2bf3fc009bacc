package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@Isolated("sets the locale of the whole process")
class SessionTomlTest {
    private final Locale before = Locale.getDefault();

    @AfterEach
    void putTheLocaleBack() {
        Locale.setDefault(before);
    }

    /** Turkish has a dotless i that breaks careless case changes, German a decimal comma. */
    @ParameterizedTest
    @ValueSource(strings = {"tr-TR", "de-DE", "en-US", "ar-EG"})
    void readsBackWhatItWroteInAnyLocale(String locale) {
        Locale.setDefault(Locale.forLanguageTag(locale));
        for (Session session : SessionCatalog.shipped().all()) {
            assertThat(SessionReader.read(SessionToml.write(session), session.name()))
                    .isEqualTo(session);
        }
    }

    @Test
    void takesNegativeZeroAsZero() {
        String toml = SessionToml.write(SessionCatalog.shipped().find("band-32"));
        Session session = SessionReader.read(toml.replace("flush_s = 10", "flush_s = -0.0"), "zero");
        assertThat(session.flushS()).isEqualTo(0.0);
        assertThat(SessionReader.read(SessionToml.write(session), "again")).isEqualTo(session);
    }

    @Test
    void wordsOfOnesOwnStayComments() {
        Session session = SessionCatalog.shipped().find("band-32");
        String toml = SessionToml.write(session, Map.of(Key.CHUNK, "seen on the trace\nwriters = 9"));
        assertThat(toml).contains("# seen on the trace[U+000A]writers = 9");
        assertThat(SessionReader.read(toml, "commented")).isEqualTo(session);
    }

    @Test
    void roundTripsRandomSessions() {
        long seed = 20_260_101L;
        RandomSessions random = new RandomSessions(seed);
        for (int i = 0; i < 500; i++) {
            Session session = random.next();
            String toml = SessionToml.write(session);
            assertThat(SessionReader.read(toml, "random"))
                    .as("seed %d, session %d:%n%s", seed, i, toml)
                    .isEqualTo(session);
        }
    }
}
