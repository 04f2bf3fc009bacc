package tracksoak.profiles;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What is said about a key in one place holds wherever it is used. */
class KeyTest {

    private final Session band = SessionCatalog.shipped().find("band-32");

    @Test
    void aSessionMadeKeyByKeyIsTheSame() {
        RandomSessions random = new RandomSessions(11);
        for (int i = 0; i < 50; i++) {
            Session session = random.next();
            assertThat(SessionDraft.of(session).toSession()).isEqualTo(session);
            assertThat(session.but().build()).isEqualTo(session);
        }
    }

    @Test
    void aBuilderNamesWhatWasNotSaid() {
        assertThatThrownBy(() -> Session.builder()
                        .name("a")
                        .title("A")
                        .margins(new Margins(1, 1, 1, 1, 0, 1))
                        .build())
                .isInstanceOf(IllegalStateException.class)
                .hasMessage("nothing was said about kind");
    }

    @Test
    void everyOptionIsNamedOnceAndPutsItsValueInPlace() {
        List<String> names = new ArrayList<>();
        for (Key key : Key.values()) {
            key.option().ifPresent(option -> {
                names.add(option.name());
                assertThat(option.name()).matches("--[a-z]+(-[a-z]+)*");
                assertThat(option.description()).endsWith(".");
            });
        }
        assertThat(names).contains("--tracks", "--file-limit", "--close-time").doesNotHaveDuplicates();
    }

    @Test
    void onlyKeysWithAnOptionCanBeGivenForOneRun() {
        SessionOverrides none = SessionOverrides.none();
        assertThatThrownBy(() -> none.with(Key.NAME, "other")).hasMessage("name cannot be given for one run");
        assertThatThrownBy(() -> none.with(Key.WRITERS, "2")).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> none.with(Key.WRITERS, 1.5)).isInstanceOf(IllegalArgumentException.class);
        assertThat(none.with(Key.WRITERS, 2).has(Key.WRITERS)).isTrue();
        assertThat(none.has(Key.WRITERS)).as("it is another object").isFalse();
        assertThat(none.with(Key.WRITERS, 2).with(Key.WRITERS, null).applyTo(band))
                .isSameAs(band);
    }

    @Test
    void everyValueIsToldInWordsWithItsUnit() {
        assertThat(Arrays.stream(Key.values()).filter(Key::isOfSession).map(key -> key.label() + " " + key.shown(band)))
                .contains(
                        "length 3 h",
                        "layout file-per-track",
                        "chunk 64 KiB",
                        "flush 10 s",
                        "file limit 4294967295 B",
                        "stall limit 250 ms",
                        "rate 1.5×",
                        "close 15000 ms");
    }
}
