package tracksoak.bench.command.climb;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.command.AtOneDrive;
import tracksoak.bench.command.Typed;

class ClimbCommandTest extends AtOneDrive {

    private static final String SHORT = " --length 1min --short-take 5s --take 20s --take-before 5s --fill-cap 60s";

    private JsonNode record() throws IOException {
        return new ObjectMapper().readTree(Files.readAllBytes(out.resolve("climb.json")));
    }

    @Test
    void aSimulatedDriveGetsItsNumberItsPageAndItsSoundChecks() throws IOException {
        Typed typed = type("climb --simulated slow-stick --session trio-8 --margin 2 --more --out OUT" + SHORT);
        assertThat(typed.code()).as(typed.err()).isZero();
        JsonNode record = record();
        int with = record.at("/result/withMargin/at").intValue();
        int before = record.at("/result/beforeLoss/at").intValue();
        assertThat(typed.out())
                .startsWith(with + " tracks with 2× margin, " + before + " before audio is lost (tried for ")
                .contains("Report: " + out.resolve("climb.html"), "shortened climb");
        // 6 MB/s less what calls cost, by 144,000 B/s: 41 tracks at most, half of that with 2× margin (arithmetic)
        assertThat(with).isBetween(12, 20);
        assertThat(before).isBetween(25, 41);
        assertThat(Files.readString(out.resolve("climb.html"))).startsWith("<!");
        JsonNode check = new ObjectMapper()
                .readTree(Files.readAllBytes(out.resolve("check-" + with).resolve("record.json")));
        assertThat(check.at("/verdict/outcome").textValue()).isEqualTo("PASS");
        assertThat(check.at("/session/groups/0/tracks").intValue()).isEqualTo(with);
    }

    @Test
    void jsonIsTheRecordAndNothingElse() throws IOException {
        Typed typed = type("climb --simulated slow-stick --session trio-8 --only-margin --json --out OUT" + SHORT);
        JsonNode printed = new ObjectMapper().readTree(typed.out());
        assertThat(printed).isEqualTo(record());
        assertThat(printed.get("schema").textValue()).isEqualTo("tracksoak/climb-record/2");
        assertThat(printed.at("/result/beforeLoss").isNull()).isTrue();
    }

    @Test
    void aDriveThatStallsLongerThanTheBufferCarriesNothing() throws IOException {
        Typed typed = type("climb --simulated tidying-stick --session trio-8 --most 12 --out OUT --length 10min");
        assertThat(typed.code()).isEqualTo(1);
        assertThat(typed.out()).startsWith("Not even 1 track could be confirmed");
        assertThat(record().at("/result/withMargin/at").isNull()).isTrue();
    }

    /** It hangs in the sound-check: no lost audio is counted, yet a table that says "none" beside "misses lost audio" would lie. */
    @Test
    void aDriveThatStopsIsNotSaidToHaveLostNothing() throws IOException {
        Typed typed =
                type("climb --simulated hanging-ssd --session trio-8 --most 1 --only-margin --more --out OUT" + SHORT);
        assertThat(typed.code()).isEqualTo(1);
        assertThat(typed.out()).containsPattern("sound-check +1 track .* all after it stopped +misses lost audio");
        assertThat(Files.readString(out.resolve("climb.html"))).contains("all after it stopped");
    }

    @Test
    void aDriveThatLeavesTheComputerIsSaidToHaveDoneSo() throws IOException {
        Typed typed = type(
                "climb --simulated loose-plug-stick --session trio-8 --most 4 --out OUT --length 5min --take 2min");
        assertThat(typed.code()).isEqualTo(1);
        assertThat(typed.out().replaceAll("\\s+", " "))
                .startsWith("Not even 1 track could be confirmed")
                .containsPattern("Why: At 1 track: .*The drive left the computer");
        assertThat(Files.readString(out.resolve("climb.html"))).contains("The drive left the computer");
    }

    @Test
    void theSampleRateCanGrowInstead() {
        Typed typed = type("climb --simulated slow-stick --session trio-8 --grow sample-rate --out OUT" + SHORT);
        assertThat(typed.code()).as(typed.err()).isZero();
        // 8 tracks of 3 bytes a sample at 1.5×: 6 MB/s is short of 192 kHz (6.9 MB/s), beyond 88.2 kHz (3.2 MB/s)
        // (arithmetic)
        assertThat(typed.out()).containsPattern("^(88\\.2|96|176\\.4) kHz with the margins asked");
    }

    @Test
    void aDryRunTouchesNothing() throws IOException {
        Typed typed = type("climb DRIVE --session trio-8 --dry-run");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out()).contains("Nothing is written now", "wear", "sound-checks", "1 track to ");
        assertThat(drive).isEmptyDirectory();
        JsonNode would = new ObjectMapper()
                .readTree(type("climb DRIVE --session trio-8 --dry-run --json").out());
        assertThat(would.get("schema").textValue()).isEqualTo("tracksoak/climb-dry-run/1");
        assertThat(would.get("most").intValue()).isBetween(8, 1024);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            climb --session trio-8 | no drive was given
            climb DRIVE --simulated slow-stick --session trio-8 | exclude each other
            climb DRIVE --session two-rates | tracks of 2 kinds
            climb DRIVE --session playback-16 | and a climb records
            climb DRIVE --session trio-8 --most 0 | allowed: 1 to 1024
            climb DRIVE --session trio-8 --most 9 --grow sample-rate | means nothing with --grow sample-rate
            climb DRIVE --session trio-8 --short-take 0s | --short-take is 0 s
            climb DRIVE --session trio-8 --grow wings | what a climb can make grow
            climb DRIVE --session trio-8 --margin 0.5 | 0.5
            """)
    void whatMakesNoSenseIsRefusedBeforeAnythingIsWritten(String line, String words) {
        Typed typed = type(line);
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains(words);
        assertThat(drive).isEmptyDirectory();
    }

    /** A real climb on whatever this test's folder lies on: it must end, leave nothing, and never answer unconfirmed. */
    @Test
    void aRealClimbLeavesTheDriveAsItWas() throws IOException {
        Files.writeString(drive.resolve("show.wav"), "precious");
        Typed typed = type("climb DRIVE --session trio-8 --tracks 1 --most 1 --only-margin --length 1s --short-take 1s"
                + " --take 1s --take-before 1s --fill-cap 1s --out OUT");
        assertThat(typed.code()).as(typed.err()).isIn(0, 1, 4);
        try (Stream<Path> left = Files.list(drive)) {
            assertThat(left).containsExactly(drive.resolve("show.wav"));
        }
        JsonNode record = record();
        assertThat(record.get("state").textValue()).isEqualTo("complete");
        assertThat(record.at("/steps").size()).isPositive();
        if (typed.code() == 0) {
            assertThat(record.at("/result/withMargin/at").intValue()).isEqualTo(1);
        }
    }
}
