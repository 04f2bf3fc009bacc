package tracksoak.bench.command.console;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine.TypeConversionException;

class AmountsTest {

    @ParameterizedTest
    @CsvSource({
        "250ms,0.25",
        "30s,30",
        "45min,2700",
        "45 min,2700",
        "1h30min,5400",
        "1.5h,5400",
        "1 h 30 min,5400",
        "250 ms,0.25",
        "1h1min1s1ms,3661.001",
        "0s,0"
    })
    void timesCarryTheirUnit(String text, double seconds) {
        assertThat(new Amounts.Duration().convert(text)).isEqualTo(seconds);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "30",
                "1.5",
                "s",
                "-3s",
                "3m",
                "3S",
                "1min1h",
                "1s1s",
                "1s  1ms",
                "1e3s",
                "NaN",
                "1 s2",
                "9999999999999999s"
            })
    void anythingElseIsNoTime(String text) {
        assertThatThrownBy(() -> new Amounts.Duration().convert(text))
                .isInstanceOf(TypeConversionException.class)
                .hasMessageContaining("\"" + text + "\" is not a time")
                .hasMessageContaining("45min");
    }

    @ParameterizedTest
    @CsvSource({
        "512B,512",
        "64KiB,65536",
        "64 KiB,65536",
        "1kB,1000",
        "1KB,1000",
        "1.5MB,1500000",
        "256MiB,268435456",
        "4GB,4000000000",
        "4GiB,4294967296",
        "1TB,1000000000000",
        "1TiB,1099511627776"
    })
    void sizesTellThousandsFromPowersOfTwo(String text, long bytes) {
        assertThat(new Amounts.Size().convert(text)).isEqualTo(bytes);
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "64", "64K", "64kb", "1.5B", "-1MB", "999999999999999TiB", "1 G B"})
    void anythingElseIsNoSize(String text) {
        assertThatThrownBy(() -> new Amounts.Size().convert(text))
                .isInstanceOf(TypeConversionException.class)
                .hasMessageContaining("is not a size");
    }

    /** Sample rates of AES5. */
    @ParameterizedTest
    @CsvSource({"48kHz,48000", "48 kHz,48000", "44.1kHz,44100", "44100Hz,44100", "96 kHz,96000", "88.2kHz,88200"})
    void sampleRatesAreWholeHertz(String text, int hz) {
        assertThat(new Amounts.SampleRate().convert(text)).isEqualTo(hz);
    }

    @ParameterizedTest
    @ValueSource(strings = {"48", "48000", "48k", "48.00001kHz", "3000000kHz", "48khz"})
    void anythingElseIsNoSampleRate(String text) {
        assertThatThrownBy(() -> new Amounts.SampleRate().convert(text))
                .isInstanceOf(TypeConversionException.class)
                .hasMessageContaining("is not a sample rate");
    }

    /** As in a session file: a stray blank around it is no riddle. */
    @Test
    void blanksAroundAreNothing() {
        assertThat(new Amounts.Duration().convert(" 1s ")).isEqualTo(1);
        assertThat(new Amounts.Size().convert("1GB ")).isEqualTo(1_000_000_000);
        assertThat(new Amounts.SampleRate().convert(" 48 kHz")).isEqualTo(48_000);
    }

    /** What the table in docs/sessions.md shows is what the command line takes; the room of profiles tests its side. */
    @Test
    void takesEverySpellingThatIsWrittenDown() throws IOException {
        Matcher row = Pattern.compile("(?m)^\\| (size|time|sample rate) \\| (.+?) \\|")
                .matcher(Files.readString(Path.of("..", "docs", "sessions.md")));
        int spellings = 0;
        while (row.find()) {
            for (String quoted : row.group(2).split(", ", -1)) {
                String text = quoted.replace("`", "");
                Number value = switch (row.group(1)) {
                    case "size" -> new Amounts.Size().convert(text);
                    case "time" -> new Amounts.Duration().convert(text);
                    default -> new Amounts.SampleRate().convert(text);
                };
                assertThat(value.doubleValue()).as(text).isPositive();
                spellings++;
            }
        }
        assertThat(spellings).isGreaterThan(12);
    }

    @ParameterizedTest
    @ValueSource(strings = {"48", "1.5"})
    void aMissingUnitIsNamed(String text) {
        assertThatThrownBy(() -> new Amounts.Size().convert(text)).hasMessageContaining("its unit is missing");
    }
}
