package tracksoak.bench.command.qualify;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.command.AtOneDrive;
import tracksoak.bench.command.PressedAtOnce;
import tracksoak.bench.command.Typed;

@Isolated("some of its runs write to this computer's disk in real time")
class QualifyCommandTest extends AtOneDrive {

    private JsonNode record() throws IOException {
        return new ObjectMapper().readTree(Files.readAllBytes(out.resolve("record.json")));
    }

    @ParameterizedTest
    @CsvSource({"steady-stick, PASS, 0", "tidying-stick, FAIL, 1", "hanging-ssd, FAIL, 1", "loose-plug-stick, FAIL, 1"})
    void aSimulatedDriveGetsItsVerdictItsFilesAndItsExitCode(String model, String outcome, int code)
            throws IOException {
        Typed typed = type("qualify --session band-32 --plan line-check --length 10min --out OUT --simulated", model);
        assertThat(typed.err()).doesNotContain("wrong");
        assertThat(typed.code()).isEqualTo(code);
        assertThat(typed.out())
                .startsWith(outcome + "  ")
                .contains(out.resolve("report.html").toString());
        assertThat(record().at("/verdict/outcome").textValue()).isEqualTo(outcome);
        assertThat(Files.readString(out.resolve("report.html"))).startsWith("<!");
    }

    @Test
    void jsonIsTheRecordAndNothingElse() throws IOException {
        Typed typed = type("qualify --session trio-8 --plan line-check --simulated steady-ssd --json --out OUT");
        JsonNode printed = new ObjectMapper().readTree(typed.out());
        assertThat(printed).isEqualTo(record());
        assertThat(printed.get("schema").textValue()).isEqualTo("tracksoak/run-record/3");
    }

    @Test
    void aDriveFileIsASimulatedDriveOfOnesOwn() throws IOException {
        Path file = Files.writeString(drive.resolve("my.toml"), """
                name = "my-stick"
                seed = 9
                size = "16 GB"

                [[behaviour]]
                kind = "constant-rate"
                write = "1 MB/s"
                read = "20 MB/s"
                overhead = "0 us"
                """);
        assertThat(type("qualify --session trio-8 --plan line-check --dry-run --simulated DRIVE/my.toml")
                        .out())
                .contains("\n  it              writes at a constant 1 MB/s\n");
        assertThat(type("climb --session trio-8 --dry-run --simulated DRIVE/my.toml")
                        .out())
                .contains("\n  it              writes at a constant 1 MB/s\n");
        Typed typed = type("qualify --session trio-8 --plan line-check --out OUT --simulated DRIVE/my.toml");
        assertThat(typed.code()).as(typed.err()).isEqualTo(1);
        assertThat(record().at("/drive/model").textValue()).isEqualTo("my-stick");
        assertThat(record().at("/drive/serial").textValue()).isEqualTo("seed 9");
        Files.writeString(file, Files.readString(file).replace("\"1 MB/s\"", "\"0 MB/s\""));
        Typed wrong = type("qualify --session trio-8 --plan line-check --simulated DRIVE/my.toml");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err())
                .contains(
                        "my.toml:7: behaviour[0].write = \"0 MB/s\": is not allowed here", "allowed: 1 kB/s to 9 GB/s");
    }

    @Test
    void withoutAPlaceTheRecordGoesToTheUsersRecords() throws IOException {
        type("qualify --session trio-8 --plan line-check --simulated steady-ssd");
        try (Stream<Path> records = Files.list(rooms.recordsFolder())) {
            assertThat(records).hasSize(1).allMatch(run -> Files.exists(run.resolve("record.json")));
        }
    }

    /** A real run on whatever this test's folder lies on: two seconds of eight tracks. */
    @Test
    void aRealRunLeavesTheDriveAsItWas() throws IOException {
        Files.writeString(drive.resolve("show.wav"), "precious");
        Typed typed =
                type("qualify DRIVE --session trio-8 --plan line-check --take 2s --idle 0s --length 1min --out OUT");
        assertThat(typed.code()).as(typed.err()).isIn(0, 4);
        JsonNode record = record();
        assertThat(record.at("/plan/shortened").booleanValue()).isTrue();
        assertThat(record.at("/phases/0/kind").textValue()).isEqualTo("take");
        // 8 × 144,000 B/s × 2 s of samples at least (arithmetic); what was still in the buffer is written by the close
        long written = record.at("/phases/0/bytes").longValue()
                + record.at("/phases/1/bytes").longValue();
        assertThat(written).isGreaterThanOrEqualTo(2_304_000L);
        assertThat(record.at("/drive/folder").textValue())
                .startsWith("TRACKSOAK-")
                .doesNotContain(drive.toRealPath().toString());
        try (Stream<Path> left = Files.list(drive)) {
            assertThat(left).containsExactly(drive.resolve("show.wav"));
        }
        assertThat(drive.resolve("show.wav")).hasContent("precious");
    }

    @Test
    void aDryRunTouchesNothing() throws IOException {
        Typed typed = type("qualify DRIVE --session trio-8 --plan sound-check --dry-run");
        assertThat(typed.code()).isZero();
        assertThat(typed.out()).contains("Nothing is written now", drive.toString(), "wear", "stays free");
        assertThat(drive).isEmptyDirectory();
        assertThat(host).isEmptyDirectory();
    }

    /** 512 tracks at 288,000 B/s for 24 h are 12.7 TB (arithmetic): more than the disk of a computer that runs tests. */
    @Test
    void whatCannotFitIsSaidBeforehand() {
        String line = "qualify DRIVE --session hires-32 --tracks 512 --plan line-check --dry-run --length ";
        assertThat(type(line + "24h").err()).contains("24 h does not fit", "FAIL for want of room");
        assertThat(type(line + "1s").err()).doesNotContain("does not fit");
    }

    /**
     * 8 tracks at 144,000 B/s for 120 s are 138.24 MB of samples (arithmetic), and single blocks over the free room take 64 MiB
     * at most; headers and padding come on top.
     */
    @Test
    void aDryRunSaysHowManyBytesAreWritten() throws IOException {
        JsonNode would = new ObjectMapper()
                .readTree(type("qualify DRIVE --session trio-8 --plan line-check --dry-run --json")
                        .out());
        assertThat(would.get("schema").textValue()).isEqualTo("tracksoak/dry-run/1");
        assertThat(would.get("writtenBytesAtMost").longValue() - (64L << 20)).isBetween(138_240_000L, 139_000_000L);
    }

    @Test
    void anotherRunsFilesAreNeverWrittenOver() throws IOException {
        Files.createDirectory(out);
        Files.writeString(out.resolve("record.json"), "another");
        Typed typed = type("qualify --session trio-8 --plan line-check --simulated steady-ssd --out OUT");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("is there already").contains("→ name a new folder");
        assertThat(out.resolve("record.json")).hasContent("another");
        assertThat(out.resolve("report.html")).doesNotExist();
    }

    @Test
    void theRecordMayNotLieOnTheDriveUnderTest() {
        Typed typed = type(
                "qualify DRIVE --session trio-8 --plan line-check --out",
                drive.resolve("x/y").toString());
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("on the drive under test");
        assertThat(drive).isEmptyDirectory();
    }

    @Test
    void aRunThatIsStoppedSaysSoAndCleansUp() throws IOException {
        Typed typed = Typed.run(
                rooms,
                new PressedAtOnce(),
                "qualify",
                drive.toString(),
                "--session",
                "trio-8",
                "--plan",
                "line-check",
                "--out",
                out.toString());
        assertThat(typed.code()).isEqualTo(130);
        assertThat(record().get("state").textValue()).isEqualTo("interrupted");
        assertThat(record().at("/verdict/outcome").textValue()).isEqualTo("NO_VERDICT");
        assertThat(drive).isEmptyDirectory();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "qualify | no drive was given",
                "qualify DRIVE --simulated steady-ssd | exclude each other",
                "qualify DRIVE | no session was given",
                "qualify DRIVE --session trio-8 | no plan was given",
                "qualify DRIVE --session trio-9 --plan line-check | did you mean trio-8?",
                "qualify DRIVE --session trio-8 --session-file x.toml --plan line-check | exclude each other",
                "qualify DRIVE --session-file DRIVE/x.toml --plan line-check | does not exist",
                "qualify DRIVE --session trio-8 --plan full-check | is not a plan. It is one of line-check, sound-check",
                "qualify DRIVE --session trio-8 --plan linecheck | is not a plan; did you mean line-check? It is one of",
                "qualify --simulated tidying-stik --session trio-8 --plan line-check | did you mean tidying-stick?",
                "qualify --simulated steady --session trio-8 --plan line-check | no simulated drive is named \"steady\"",
                "qualify --simulated DRIVE/no.toml --session trio-8 --plan line-check | no.toml: does not exist",
                "climb --simulated no.toml --session trio-8 | no.toml: does not exist",
                "drill --simulated no.toml --session trio-8 | no.toml: does not exist",
                "qualify --simulated DRIVE --session trio-8 --plan line-check | is no regular file",
                "qualify DRIVE/nowhere --session trio-8 --plan line-check | there is no folder or file",
                "qualify DRIVE --session trio-8 --plan line-check --take 0s | --take is 0 s; allowed: 1 s",
                "qualify DRIVE --session trio-8 --plan line-check --take 25h | allowed: 1 s",
                "qualify DRIVE --session trio-8 --plan line-check --idle 25h | allowed: 0 s",
                "qualify DRIVE --session playback-16 --plan line-check --idle 1min | --idle means nothing there",
                "qualify DRIVE --session trio-8 --plan line-check --take 30 | its unit is missing",
                "qualify DRIVE --session trio-8 --plan line-check --fill-cap 1h | --fill-cap means nothing there",
                "qualify DRIVE --session trio-8 --plan line-check --take-before 1h | --take-before means nothing there",
                "qualify DRIVE --session trio-8 --plan line-check --hang-limit 2h | --hang-limit is 2 h",
                "qualify DRIVE --session trio-8 --plan line-check --reserve 5 | its unit is missing",
                "qualify DRIVE --session trio-8 --plan line-check --seed x | --seed",
                "qualify DRIVE --session trio-8 --plan line-check --tracks few | \"few\" is not a whole number",
                "qualify DRIVE --session trio-8 --plan line-check --rate-margin 1,5 | \"1,5\" is not a number. Write it like",
                "qualify DRIVE --session trio-8 --plan line-check --tracks 0 | --tracks = \"0\" is too small",
                "qualify DRIVE --session two-rates --plan line-check --tracks 8 | groups of tracks",
                "qualify DRIVE --session trio-8 --plan line-check --sample-rate 5Hz | \"5\" is too small",
                "qualify DRIVE --session trio-8 --plan line-check --word-length 24 | is not a word length",
                "qualify DRIVE --session trio-8 --plan line-check --length 0s | --length = ",
                "qualify DRIVE --session trio-8 --plan line-check --length 1500ms | --length takes whole s",
                "qualify DRIVE --session trio-8 --plan line-check --layout both | is not a file layout",
                "qualify DRIVE --session trio-8 --plan line-check --chunk 5KiB | --chunk = ",
                "qualify DRIVE --session trio-8 --plan line-check --arrival late | is not an arrival",
                "qualify DRIVE --session trio-8 --plan line-check --writers 65 | --writers = ",
                "qualify DRIVE --session trio-8 --plan line-check --flush 2h | --flush = ",
                "qualify DRIVE --session trio-8 --plan line-check --buffer 1ms | --buffer = ",
                "qualify DRIVE --session trio-8 --plan line-check --file-limit 1kB | --file-limit = ",
                "qualify DRIVE --session trio-8 --plan line-check --file-systems fat31 | did you mean \"fat32\"?",
                "qualify DRIVE --session trio-8 --plan line-check --stall-limit 0s | --stall-limit = ",
                "qualify DRIVE --session trio-8 --plan line-check --buffer-margin 0.5 | --buffer-margin = ",
                "qualify DRIVE --session trio-8 --plan line-check --rate-margin NaN | --rate-margin = ",
                "qualify DRIVE --session trio-8 --plan line-check --port-margin 1000 | --port-margin = ",
                "qualify DRIVE --session trio-8 --plan line-check --playback-margin 0 | --playback-margin = ",
                "qualify DRIVE --session trio-8 --plan line-check --longest-stall 1h | --longest-stall = ",
                "qualify DRIVE --session trio-8 --plan line-check --close-time 2h | --close-time = ",
                "qualify DRIVE --sesion trio-8 | did you mean --session?",
                "qualify DRIVE --sesion=trio-8 | did you mean --session?",
                "roster lsit | did you mean list?",
                "qualfy DRIVE | did you mean qualify?"
            })
    void everyMistakeIsNamed(String line, String said) {
        Typed typed = type(line);
        assertThat(typed.err()).contains(said).contains("→");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.out()).isEmpty();
        assertThat(drive).isEmptyDirectory();
        assertThat(host).isEmptyDirectory();
    }

    @Test
    void noRoomIsNoMistakeOfTheUsers() {
        Typed typed = type("qualify DRIVE --session trio-8 --plan line-check --reserve 60GB");
        assertThat(typed.code()).isEqualTo(3);
        assertThat(typed.err()).contains("free room");
    }
}
