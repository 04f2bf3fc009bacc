package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Isolated("sets the locale of the whole process")
class UnitsTest {

    @ParameterizedTest
    @CsvSource({
        "0, 0 ms",
        "0.423, 0.42 ms",
        "12.34, 12.3 ms",
        "250, 250 ms",
        "999.4, 999 ms",
        "1234.4, 1.23 s",
        "12300, 12.3 s"
    })
    void timesInMs(double ms, String words) {
        assertThat(Units.ms(ms)).isEqualTo(words);
    }

    @ParameterizedTest
    @CsvSource({
        "2.5, 2.5 s",
        "0.25, 0.25 s",
        "60, 60 s",
        "119.97, 2 min",
        "750, 12 min 30 s",
        "7199.6, 2 h",
        "11100, 3 h 5 min",
        "43200, 12 h"
    })
    void timesInS(double s, String words) {
        assertThat(Units.seconds(s)).isEqualTo(words);
    }

    /** 32 tracks at 48 kHz/24-bit are 4.608 MB/s (arithmetic; rates from AES5). */
    @ParameterizedTest
    @CsvSource({"4608000, 4.61 MB/s", "144000, 0.14 MB/s", "30e6, 30 MB/s", "99.96e6, 100 MB/s", "1.2e9, 1200 MB/s"})
    void rates(double bytesPerSecond, String words) {
        assertThat(Units.rate(bytesPerSecond)).isEqualTo(words);
    }

    @ParameterizedTest
    @CsvSource({
        "0, 0 B",
        "999, 999 B",
        "65536, 65.5 kB",
        "999499, 999 kB",
        "999500, 1 MB",
        "4147200000, 4.15 GB",
        "999600000000, 1 TB"
    })
    void amounts(long bytes, String words) {
        assertThat(Units.bytes(bytes)).isEqualTo(words);
    }

    @ParameterizedTest
    @CsvSource({
        "2, 2×",
        "1.999, 1.99×",
        "1.15, 1.15×",
        "23.49, 23.4×",
        "340.9, 340×",
        "999.9, 999×",
        "1000, at least 1000×",
        "5000, at least 1000×"
    })
    void marginsAreNeverShownBetterThanTheyAre(double factor, String words) {
        assertThat(Units.factor(factor)).isEqualTo(words);
    }

    @Test
    void saysWhatIsNoNumber() {
        assertThat(Units.factor(Double.NaN)).isEqualTo("unknown");
        assertThat(Units.ms(Double.POSITIVE_INFINITY)).isEqualTo("endless ms");
        assertThat(Units.percent(0.1234)).isEqualTo("12.3 %");
    }

    @Test
    void doesNotDependOnTheLocale() {
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            assertThat(Units.rate(4_608_000)).isEqualTo("4.61 MB/s");
        } finally {
            Locale.setDefault(before);
        }
    }

    /** Rounded as Java's own patterns round: half up, of the digits that tell the number from its neighbours. */
    @Test
    void roundedAsByAPattern() {
        Random random = new Random(27);
        for (int i = 0; i < 20_000; i++) {
            double value = Math.scalb(random.nextDouble() - 0.5, random.nextInt(12)) + (i % 3) * 0.005;
            String expected = String.format(Locale.ROOT, "%." + (Math.abs(value) < 1 ? 2 : 1) + "f", value);
            String bare =
                    expected.contains(".") ? expected.replaceAll("0+$", "").replaceAll("\\.$", "") : expected;
            if (Math.abs(value) < 99) {
                assertThat(Units.ms(value)).isEqualTo((bare.equals("-0") ? "0" : bare) + " ms");
            }
        }
    }
}
