package tracksoak.profiles.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@Isolated("sets the locale of the whole process")
class QuantityTest {
    private final Locale before = Locale.getDefault();

    @AfterEach
    void putTheLocaleBack() {
        Locale.setDefault(before);
    }

    /** Units of IEC 80000-13: kB 1,000 B, KiB 1,024 B. */
    @ParameterizedTest
    @CsvSource({
        "0 B, 0",
        "64 KiB, 65536",
        "64KiB, 65536",
        "64 kB, 64000",
        "64 KB, 64000",
        "1.5 MiB, 1572864",
        "4 GB, 4000000000",
        "4 GiB, 4294967296",
        "2 TB, 2000000000000",
        "1 TiB, 1099511627776",
        "4294967295 B, 4294967295"
    })
    void readsSizes(String text, long bytes) {
        assertThat(Quantity.bytes(text)).isEqualTo(bytes);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"", "64", "KiB", "-1 KiB", "64 kib", "64 KİB", "1,5 MiB", "٦٤ KiB", "64  KiB", "0x10 B", "1e3 B"
            })
    void refusesWhatIsNoSize(String text) {
        assertThatThrownBy(() -> Quantity.bytes(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("is no size");
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.5 B", "1.0001 kB", "999999999999999999 TiB"})
    void refusesSizesThatAreNoWholeNumberOfBytes(String text) {
        assertThatThrownBy(() -> Quantity.bytes(text)).hasMessageContaining("not a whole number of bytes");
    }

    @ParameterizedTest
    @CsvSource({
        "3 h, 10800",
        "3h, 10800",
        "1 h 30 min, 5400",
        "1h30min, 5400",
        "1.5 h, 5400",
        "90 s, 90",
        "1 h 1 s, 3601",
        "0.5 min, 30",
        "1 h 30 min 5 s, 5405",
        "1 h30 min, 5400",
        "1h 30min, 5400",
        "2000 ms, 2",
        "' 3 h ', 10800"
    })
    void readsLengths(String text, long seconds) {
        assertThat(Quantity.seconds(text)).isEqualTo(seconds);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "3", "h", "3 hours", "30 min 1 h", "1 h 1 h", "-1 h", "1 h,", "1,5 h", "3 H"})
    void refusesWhatIsNoLength(String text) {
        assertThatThrownBy(() -> Quantity.seconds(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("is no length");
    }

    @ParameterizedTest
    @ValueSource(strings = {"250 ms", "1.5 s", "0.0001 h", "1 min 1 ms"})
    void refusesLengthsThatAreNoWholeNumberOfSeconds(String text) {
        assertThatThrownBy(() -> Quantity.seconds(text)).hasMessage("is not a whole number of seconds");
        assertThat(Quantity.exactTime(text)).isPositive();
    }

    @ParameterizedTest
    @CsvSource({"250 ms, 250", "250ms, 250", "1.25 s, 1250", "0.0005 h, 1800", "1 s 1 ms, 1001"})
    void readsTimesInMilliseconds(String text, long ms) {
        assertThat(Quantity.wholeMilliseconds(text)).isEqualTo(ms);
        assertThat(Quantity.exactTime(text)).isEqualTo(ms / 1000.0);
    }

    @Test
    void refusesTimesThatAreNoWholeNumberOfMilliseconds() {
        assertThatThrownBy(() -> Quantity.wholeMilliseconds("0.5 ms")).hasMessage("is not a whole number of ms");
        assertThatThrownBy(() -> Quantity.wholeMilliseconds("999999999999999 h"))
                .hasMessage("is not a whole number of ms");
    }

    /** Sample rates of AES5. */
    @ParameterizedTest
    @CsvSource({"48 kHz, 48000", "48kHz, 48000", "44.1 kHz, 44100", "44100Hz, 44100", "44100 Hz, 44100"})
    void readsSampleRates(String text, long hz) {
        assertThat(Quantity.hertz(text)).isEqualTo(hz);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "48", "48k", "48 khz", "48 KHz", "-48 kHz", "48 MHz", "48 s"})
    void refusesWhatIsNoSampleRate(String text) {
        assertThatThrownBy(() -> Quantity.hertz(text)).hasMessageContaining("is no sample rate");
        assertThatThrownBy(() -> Quantity.hertz("48.00001 kHz")).hasMessage("is not a whole number of Hz");
    }

    @ParameterizedTest
    @ValueSource(strings = {"tr-TR", "de-DE", "ar-EG", "en-US"})
    void readsBackWhatItWritesInEveryLocale(String locale) {
        Locale.setDefault(Locale.forLanguageTag(locale));
        long seed = 3;
        Random random = Seeded.random(seed);
        for (int i = 0; i < 2_000; i++) {
            long bytes = random.nextLong() >>> (1 + random.nextInt(60));
            bytes -= random.nextBoolean() ? bytes % (1L << (10 * random.nextInt(5))) : 0;
            assertThat(Quantity.bytes(Quantity.exactBytes(bytes)))
                    .as("seed %d", seed)
                    .isEqualTo(bytes);
            long seconds = random.nextInt(1 << (1 + random.nextInt(29)));
            assertThat(Quantity.seconds(Quantity.exactSeconds(seconds)))
                    .as("seed %d", seed)
                    .isEqualTo(seconds);
        }
        assertThat(Quantity.plain(1.25)).isEqualTo("1.25");
        assertThat(Quantity.plain(1234567)).isEqualTo("1234567");
        assertThat(Quantity.exactBytes(65_536)).isEqualTo("64 KiB");
        assertThat(Quantity.exactSeconds(5_405)).isEqualTo("1 h 30 min 5 s");
    }

    @Test
    void showsUnevenSizesInBytes() {
        assertThat(Quantity.exactBytes(4_294_967_295L)).isEqualTo("4294967295 B");
        assertThat(Quantity.exactSeconds(0)).isEqualTo("0 s");
    }

    @ParameterizedTest
    @CsvSource({
        "40 MB/s, 40000000",
        "1 B/s, 1",
        "1.5kB/s, 1500",
        "8 MiB/s, 8388608",
    })
    void readsRates(String text, long bytesPerSecond) {
        assertThat(Quantity.bytesPerSecond(text)).isEqualTo(bytesPerSecond);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "40", "40 MB", "/s", "40 MB/h", "40 MB/s/s", "-1 MB/s", "NaN MB/s", "40 Mb/s"})
    void refusesWhatIsNoRate(String text) {
        assertThatThrownBy(() -> Quantity.bytesPerSecond(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("is no rate");
    }

    @ParameterizedTest
    @CsvSource({
        "150 us, 150000",
        "2.5 ms, 2500000",
        "40ns, 40",
        "0 s, 0",
        "1 min 30 s, 90000000000",
        "1 h 2 min 3 s 4 ms 5 us 6 ns, 3723004005006",
    })
    void readsShortTimes(String text, long ns) {
        assertThat(Quantity.nanoseconds(text)).isEqualTo(ns);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "5", "s", "-1 s", "1 s 1 min", "1 s 1 s", "Infinity s", "1e3 s", "1 day", "3 s!"})
    void refusesWhatIsNoTime(String text) {
        assertThatThrownBy(() -> Quantity.nanoseconds(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("is no time");
    }

    @Test
    void refusesAmountsThatAreNotWhole() {
        assertThatThrownBy(() -> Quantity.nanoseconds("0.5 ns")).hasMessageContaining("whole number of ns");
        assertThatThrownBy(() -> Quantity.nanoseconds("999999999999999 h")).hasMessageContaining("up to 2^63 - 1");
        assertThatThrownBy(() -> Quantity.bytesPerSecond("0.5 B/s")).hasMessageContaining("bytes per second");
        assertThatThrownBy(() -> Quantity.permille("0.05 %")).hasMessageContaining("tenths of a per cent");
    }

    @ParameterizedTest
    @CsvSource({"12 %, 120", "0.6%, 6", "100 %, 1000", "0 %, 0"})
    void readsShares(String text, long permille) {
        assertThat(Quantity.permille(text)).isEqualTo(permille);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "12", "%", "-1 %", "NaN %", "1 % 1 %", "1 percent"})
    void refusesWhatIsNoShare(String text) {
        assertThatThrownBy(() -> Quantity.permille(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("is no share");
    }
}
