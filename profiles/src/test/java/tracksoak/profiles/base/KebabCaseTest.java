package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class KebabCaseTest {

    private final Locale before = Locale.getDefault();

    private enum Thing {
        TITLE,
        FILE_PER_TRACK
    }

    @AfterEach
    void putTheLocaleBack() {
        Locale.setDefault(before);
    }

    @Test
    void writesSmallLettersWithHyphensInEveryLanguage() {
        Locale.setDefault(Locale.forLanguageTag("tr-TR"));
        assertThat(KebabCase.of(Thing.TITLE)).isEqualTo("title");
        assertThat(KebabCase.of(Thing.FILE_PER_TRACK)).isEqualTo("file-per-track");
    }

    @Test
    void readsBackExactlyWhatItWrites() {
        for (Thing thing : Thing.values()) {
            assertThat(KebabCase.read(Thing.class, KebabCase.of(thing))).contains(thing);
        }
        for (String other : new String[] {"", "TITLE", "Title", "file_per_track", "file-per-track ", "file"}) {
            assertThat(KebabCase.read(Thing.class, other)).as(other).isEmpty();
        }
    }
}
