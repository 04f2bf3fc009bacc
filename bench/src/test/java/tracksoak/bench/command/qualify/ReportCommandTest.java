package tracksoak.bench.command.qualify;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.Rooms;

class ReportCommandTest {

    @TempDir
    Path folder;

    private Path run;
    private Rooms rooms;

    @BeforeEach
    void aRunOfBand32OnASteadyStick() {
        run = folder.resolve("run");
        rooms = new TestRooms(folder.resolve("host"), List.of());
        Typed typed = Typed.run(
                rooms,
                "qualify",
                "--simulated",
                "steady-stick",
                "-s",
                "band-32",
                "-p",
                "line-check",
                "--length",
                "1h",
                "-o",
                run.toString());
        assertThat(typed.code()).as(typed.err()).isZero();
    }

    private Typed type(String... words) {
        return Typed.run(
                rooms,
                Stream.concat(Stream.of("report", run.toString()), Stream.of(words))
                        .toArray(String[]::new));
    }

    @Test
    void theReportIsRenderedAgainBesideItsRecord() throws IOException {
        String before = Files.readString(run.resolve("report.html"));
        Files.delete(run.resolve("report.html"));
        Typed typed = type();
        assertThat(typed.code()).isZero();
        assertThat(typed.out()).startsWith("PASS  ");
        assertThat(run.resolve("report.html")).hasContent(before);
    }

    @Test
    void aStrangersReportIsNotReplaced() throws IOException {
        Files.writeString(run.resolve("report.html"), "another's");
        Typed typed = type();
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("is not of this run", "--out");
        assertThat(run.resolve("report.html")).hasContent("another's");
    }

    /** The stick is steady at 40 MB/s; a rate margin of 100 would ask for 461 MB/s of 4.608 MB/s demand (arithmetic). */
    @Test
    void theSameFactsCanBeJudgedByOtherMargins() throws IOException {
        byte[] before = Files.readAllBytes(run.resolve("record.json"));
        Typed typed = type("--rate-margin", "100");
        assertThat(typed.code()).isEqualTo(1);
        assertThat(typed.out()).startsWith("FAIL  ").contains("Missed: Rate margin: ");
        assertThat(typed.err()).contains("nothing was written");
        assertThat(run.resolve("record.json")).hasBinaryContent(before);
    }

    @Test
    void judgedForAHeavierSessionWhatWasNotMeasuredIsNotTested() throws IOException {
        Path out = folder.resolve("again");
        Typed typed = type("--session", "festival-64", "--length", "1h", "--out", out.toString());
        assertThat(typed.code()).isEqualTo(4);
        assertThat(typed.out()).startsWith("NO VERDICT  ").contains("Not tested");
        JsonNode kept = new ObjectMapper().readTree(Files.readAllBytes(out.resolve("record.json")));
        assertThat(kept.at("/verdict/session").textValue()).startsWith("festival-64");
        assertThat(kept.at("/session/name").textValue()).startsWith("band-32");
        assertThat(out.resolve("report.html")).exists();
    }

    @Test
    void whereTheFactsAllowNoVerdictAnEstimateStandsBesideItAndNeverInItsPlace() throws IOException {
        Path slow = folder.resolve("slow");
        Typed.run(
                rooms,
                "qualify",
                "--simulated",
                "slow-stick",
                "--session",
                "band-32",
                "--plan",
                "line-check",
                "--out",
                slow.toString());
        Path out = folder.resolve("estimated");
        Typed typed = Typed.run(
                rooms,
                "report",
                slow.toString(),
                "--session",
                "band-32",
                "--tracks",
                "8",
                "--length",
                "10min",
                "--out",
                out.toString());
        assertThat(typed.code()).isEqualTo(4);
        assertThat(typed.out())
                .startsWith("NO VERDICT  ")
                .contains("An estimate, no verdict: Estimated from a run for");
        JsonNode verdict = new ObjectMapper()
                .readTree(Files.readAllBytes(out.resolve("record.json")))
                .get("verdict");
        assertThat(verdict.get("outcome").textValue()).isEqualTo("NO_VERDICT");
        assertThat(verdict.at("/estimate/outcome").textValue()).isEqualTo("PASS");
        assertThat(verdict.at("/estimate/figures")).hasSize(5);
        assertThat(Files.readString(out.resolve("report.html")))
                .contains("An estimate, no verdict: ")
                .contains("Estimated, not measured")
                .doesNotContain(">PASS<");
    }

    @Test
    void aLighterSessionIsCarriedByTheSameFacts() {
        Typed typed = type("--session", "trio-8", "--length", "1h", "--more");
        assertThat(typed.code()).isZero();
        assertThat(typed.out()).startsWith("PASS  ").contains("is judged for trio-8");
    }

    @Test
    void jsonIsTheJudgedRecordAndNothingIsWritten() throws IOException {
        Files.delete(run.resolve("report.html"));
        JsonNode printed = new ObjectMapper().readTree(type("--json").out());
        assertThat(printed).isEqualTo(new ObjectMapper().readTree(Files.readAllBytes(run.resolve("record.json"))));
        assertThat(run.resolve("report.html")).doesNotExist();
    }

    @Test
    void whatIsNoRecordIsTheUsersMistake() throws IOException {
        Files.writeString(run.resolve("record.json"), "{\"schema\": \"tracksoak/run-record/1\", \"id\": 3}");
        Typed typed = type();
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.out()).isEmpty();
        assertThat(typed.err()).contains("cannot be read", "record.json", "→").doesNotContain("\tat ");
        assertThat(Typed.run(rooms, "report", folder.resolve("none").toString()).code())
                .isEqualTo(2);
    }
}
