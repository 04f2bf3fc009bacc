package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.Locale;
import java.util.TimeZone;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

class TimesTest {

    private final Locale language = Locale.getDefault();
    private final TimeZone zone = TimeZone.getDefault();

    @AfterEach
    void putThemBack() {
        Locale.setDefault(language);
        TimeZone.setDefault(zone);
    }

    @Test
    void areTheSameOnEveryComputer() {
        Locale.setDefault(Locale.forLanguageTag("ar-EG"));
        TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Auckland"));
        Instant at = Instant.parse("2026-03-14T18:05:59.9Z");
        assertThat(Times.day(at)).isEqualTo("2026-03-14");
        assertThat(Times.minute(at)).isEqualTo("2026-03-14 18:05 UTC");
        assertThat(Times.minute("2026-03-14T20:05:00+02:00")).isEqualTo("2026-03-14 18:05 UTC");
    }

    @Test
    void whatIsNoInstantStaysAsItIs() {
        assertThat(Times.day(null)).isEmpty();
        assertThat(Times.minute("yesterday")).isEqualTo("yesterday");
        assertThat(Times.minute("2026-13-14T18:05:00Z")).isEqualTo("2026-13-14T18:05:00Z");
    }
}
