package tracksoak.bench.command.qualify;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Isolated;
import tracksoak.bench.command.AtOneDrive;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.RosterAccess;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.store.RosterPlace;

@Isolated("some of its runs write to this computer's disk in real time")
class RequalifyCommandTest extends AtOneDrive {

    private Path first(String model) {
        Path out = folder.resolve("host").resolve("records").resolve("first");
        Typed typed = type("qualify --simulated " + model
                + " --session trio-8 --length 1h --plan line-check --take 30s --out " + out);
        assertThat(typed.code()).as(typed.err()).isZero();
        return out;
    }

    @Test
    void theLastPlanAndSessionAreRepeatedAndHeldAgainstIt() throws IOException {
        RunRecord last = RecordFile.load(first("steady-stick").resolve("record.json"));
        Typed typed = type("requalify --simulated steady-stick --json --out HOST/again");
        assertThat(typed.code()).as(typed.err()).isZero();
        RunRecord again = RecordFile.load(folder.resolve("host/again/record.json"));
        assertThat(again.session()).isEqualTo(last.session());
        assertThat(again.plan().takeAfterS()).isEqualTo(30);
        assertThat(again.plan().requalifies()).isEqualTo(last.id());
        assertThat(typed.err()).contains("by maker, model and serial number", "repeats the run of " + last.startedAt());
        JsonNode document = new ObjectMapper().readTree(typed.out());
        assertThat(document.get("schema").textValue()).isEqualTo("tracksoak/history/1");
        assertThat(document.at("/run/repeats").textValue()).isEqualTo(last.id());
        assertThat(document.at("/runs")).hasSize(2);
        assertThat(document.at("/runs/0/compared").booleanValue()).isTrue();
        // the same seeded drive gives the same figures: worked out from the first record alone
        JsonNode peak = document.at("/changes/1");
        assertThat(peak.at("/figure").textValue()).isEqualTo("peak-backlog");
        assertThat(peak.at("/earlierMost").doubleValue())
                .isEqualTo(last.phases().get(0).peakBacklogMs());
        assertThat(document.at("/ageing").booleanValue()).isFalse();
        assertThat(Files.readString(folder.resolve("host/again/report.html")))
                // two runs are no trend to draw
                .contains("This drive over time", "What changed, over the runs")
                .doesNotContain("chart-history");
    }

    @Test
    void aShownHistoryIsInPlainWords() {
        first("steady-stick");
        Typed typed = type("requalify --simulated steady-stick");
        assertThat(typed.out()).containsSubsequence("PASS ", "Over time (1 earlier run", "What to do now: ");
        assertThat(typed.out())
                .contains(
                        "Over time (1 earlier run, 1 can be compared): Trends need 5 runs, and 2 can be compared. Peak backlog: ");
    }

    /** As the README's own lines do it: the report goes into a folder of its own, and the roster knows the run. */
    @Test
    void aRunKeptElsewhereIsFoundInTheRoster() throws IOException {
        Typed first = type("qualify --simulated steady-stick --session trio-8 --length 1h --plan line-check --take 30s"
                + " --enter-simulated --out HOST/elsewhere");
        assertThat(first.err()).contains("roster: entered");
        RunRecord last = RecordFile.load(folder.resolve("host/elsewhere/record.json"));
        Typed typed = type("requalify --simulated steady-stick --json");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.err()).contains("by maker, model and serial number", "repeats the run of " + last.startedAt());
        JsonNode document = new ObjectMapper().readTree(typed.out());
        assertThat(document.at("/run/repeats").textValue()).isEqualTo(last.id());
        assertThat(document.at("/runs")).hasSize(2);
        assertThat(type("requalify --simulated steady-stick --records HOST/elsewhere --dry-run")
                        .code())
                .isZero();
    }

    /** A take of 2 h on virtual time ends 2 h in the future of this computer. */
    @Test
    void runsDatedInTheFutureAreSaidToBePassedOver() throws IOException {
        enterAhead();
        Typed none = type("requalify --simulated steady-stick");
        assertThat(none.code()).isEqualTo(3);
        assertThat(none.err())
                .contains(
                        "0 records looked at, none of this drive, besides what is passed over",
                        "1 run of this drive in the roster is passed over, being dated in the future of this computer's"
                                + " clock, which says 20");
        type("qualify --simulated steady-stick --session trio-8 --length 3h --plan line-check --take 30s"
                + " --enter-simulated --out HOST/now");
        Typed some = type("requalify --simulated steady-stick --json --out HOST/again");
        assertThat(some.code()).as(some.err()).isZero();
        assertThat(some.err()).contains("note: 1 run of this drive in the roster is passed over");
        JsonNode document = new ObjectMapper().readTree(some.out());
        assertThat(document.at("/runs")).hasSize(2);
        assertThat(document.at("/notes").toString()).contains("1 run of this drive in the roster is passed over");
        assertThat(Files.readString(folder.resolve("host/again/report.html")))
                .contains("1 run of this drive in the roster is passed over");
    }

    /** Enters a run that a computer with a wrong clock made: two days later than it is. */
    private void enterAhead() throws IOException {
        type("qualify --simulated steady-stick --session trio-8 --length 3h --plan line-check --take 30s"
                + " --no-roster --out HOST/ahead");
        Path file = folder.resolve("host/ahead/record.json");
        RunRecord run = RecordFile.load(file);
        String text = Files.readString(file);
        for (String date : List.of(run.startedAt(), String.valueOf(run.endedAt()))) {
            text = text.replace(
                    date, Instant.parse(date).plus(Duration.ofDays(2)).toString());
        }
        TesterKey key = RosterAccess.key(rooms);
        RunRecord ahead = RecordJson.read(text.getBytes(StandardCharsets.UTF_8));
        try (Roster roster = RosterAccess.open(
                RosterPlace.sqlite(Files.createDirectories(rooms.rosterFolder()).resolve(RosterPlace.FILE)))) {
            roster.desk(key).enter(SignedRecord.sign(ahead, key), null);
        }
    }

    /** A record in the folder that a laptop with a wrong clock made: dated after the run that is made now. */
    @Test
    void recordsDatedLaterAreSaidToBeLeftOut() throws IOException {
        Path ahead = first("steady-stick").resolve("record.json");
        RunRecord record = RecordFile.load(ahead);
        write(
                folder.resolve("host/records/ahead/record.json"),
                Files.readString(ahead)
                        .replace(record.startedAt(), "2999-01-01T12:00:00Z")
                        .replace(record.id(), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f"));
        Typed typed = type("requalify --simulated steady-stick --more --out HOST/again");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out())
                .contains("Over time (1 earlier run,", "One run of this drive is left out, being dated after this one");
    }

    @Test
    void whatIsInTheFolderAndInTheRosterCountsOnce() throws IOException {
        type("qualify --simulated steady-stick --session trio-8 --length 1h --plan line-check --take 30s"
                + " --enter-simulated --out HOST/records/first");
        Typed typed = type("requalify --simulated steady-stick --json");
        assertThat(new ObjectMapper().readTree(typed.out()).at("/runs")).hasSize(2);
    }

    @Test
    void theRosterIsNotAskedWhereItShallNotBeAndNotMissedWhereItCannotBe() throws IOException {
        type("qualify --simulated steady-stick --session trio-8 --length 1h --plan line-check --take 30s"
                + " --enter-simulated --out HOST/elsewhere");
        assertThat(type("requalify --simulated steady-stick --no-roster --dry-run")
                        .code())
                .isEqualTo(3);
        Typed lost = type("requalify --simulated steady-stick --roster HOST/elsewhere/record.json --dry-run");
        assertThat(lost.code()).isEqualTo(3);
        assertThat(lost.err()).contains("no earlier runs were taken from the roster", "no earlier run of");
        assertThat(type("requalify --simulated steady-stick --roster HOST/none.db --dry-run")
                        .code())
                .isEqualTo(3);
        assertThat(folder.resolve("host/none.db")).doesNotExist();
    }

    @Test
    void anOtherPlanIsSaidToBeApart() {
        first("steady-stick");
        Typed typed = type("requalify --simulated steady-stick --take 20s --tracks 4 --dry-run");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.err())
                .contains("the last run can then not be compared, because there: take of 30 s; other tracks");
        assertThat(typed.out()).contains("Nothing is written now", "take for 20 s");
    }

    @Test
    void withoutAnEarlierRecordItSaysWhatToDo() {
        first("steady-stick");
        Typed typed = type("requalify --simulated slow-stick");
        assertThat(typed.code()).isEqualTo(3);
        assertThat(typed.out()).isEmpty();
        assertThat(typed.err())
                .contains(
                        "no earlier run of",
                        "1 record looked at, none of this drive",
                        "tracksoak qualify",
                        "--records");
        assertThat(type("requalify").code()).isEqualTo(2);
        assertThat(type("requalify --simulated slow-stick --records HOST/none").code())
                .isEqualTo(2);
    }

    /** Whatever lies among the records is passed over with a line. */
    @Test
    void damagedAndHostileRecordsArePassedOver() throws IOException {
        Path good = first("steady-stick");
        Path records = folder.resolve("host/records");
        String json = Files.readString(good.resolve("record.json"));
        write(records.resolve("a/record.json"), "{");
        write(records.resolve("b/record.json"), json.replace("run-record/3", "run-record/99"));
        write(records.resolve("c/record.json"), json.replace("\"seed 102\"", "null"));
        write(records.resolve("d/record-\u001b[2J.json"), json);
        write(records.resolve("e/record.json"), "[".repeat(100_000));
        write(records.resolve("h/record.json"), json.replaceFirst("\"tool\": *\"[^\"]*\",", ""));
        write(records.resolve("i/record.json"), "garbage");
        write(records.resolve("j/record.json"), "{}");
        Files.createDirectories(records.resolve("f/record.json"));
        Files.createSymbolicLink(records.resolve("g"), Path.of("/"));
        Files.createSymbolicLink(records.resolve("record.json"), good.resolve("record.json"));
        Typed typed = type("requalify --simulated steady-stick --json");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.err())
                .contains("passed over", "is newer than this program knows")
                .contains("a/record.json\": it ends too early")
                .contains("h/record.json\": its part \"tool\" is missing", "it does not say of what kind it is")
                .contains("i/record.json\": it is no whole JSON text")
                .doesNotContain("FAIL_ON", "creator", "token", "JSON String")
                .doesNotContain("\tat ")
                .doesNotContain("\u001b");
        JsonNode document = new ObjectMapper().readTree(typed.out());
        // the copy without a serial number matches by kind, and is the same run again: it counts once
        assertThat(document.at("/runs")).hasSize(2);
    }

    private static void write(Path file, String text) throws IOException {
        Files.createDirectories(file.getParent());
        Files.writeString(file, text);
    }

    @Test
    void aReportIsRenderedWithItsHistory() throws IOException {
        first("steady-stick");
        type("requalify --simulated steady-stick --out HOST/again");
        Files.delete(folder.resolve("host/again/report.html"));
        Typed typed = type("report HOST/again --history HOST/records");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out()).contains("Over time (1 earlier run,");
        assertThat(Files.readString(folder.resolve("host/again/report.html"))).contains("This drive over time");
        JsonNode document = new ObjectMapper()
                .readTree(
                        type("report HOST/again --json --history HOST/records").out());
        assertThat(document.get("schema").textValue()).isEqualTo("tracksoak/history/1");
        assertThat(type("report HOST/again --history HOST/none").code()).isEqualTo(2);
    }

    /** A real run on whatever this test's folder lies on: two seconds of eight tracks, twice. */
    @Test
    void aRealDriveIsFoundAgainByItsTag() throws IOException {
        Typed one =
                type("qualify DRIVE --session trio-8 --plan line-check --take 2s --idle 0s --reserve 1MB --tag case-3"
                        + " --allow-system-drive --out HOST/records/one");
        assertThat(one.code()).as(one.err()).isIn(0, 4);
        Typed typed = type("requalify DRIVE --reserve 1MB --allow-system-drive --json --out HOST/two");
        assertThat(typed.code()).as(typed.err()).isIn(0, 4);
        RunRecord two = RecordFile.load(folder.resolve("host/two/record.json"));
        assertThat(two.tag()).isEqualTo("CASE-3");
        assertThat(two.plan().takeAfterS()).isEqualTo(2);
        try (Stream<Path> left = Files.list(drive)) {
            assertThat(left).isEmpty();
        }
        for (String none : List.of("\u202Eabc", "b\u00f6se;tag", "A".repeat(25))) {
            Typed refused = type("requalify DRIVE --tag " + none);
            assertThat(refused.code()).isEqualTo(2);
            assertThat(refused.err()).contains("the tag", "cannot be used", "S-014");
        }
    }
}
