package tracksoak.bench.command.roster;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.ExchangeFile;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.store.RosterPlace;

/** A file from outside, imported as people do, cannot turn what is known; what cannot be read is said, and the rest works. */
class RosterForgedImportTest {

    @TempDir
    Path folder;

    private Rooms rooms;

    @BeforeEach
    void furnish() throws IOException {
        Path drive = Files.createDirectory(folder.resolve("drive"));
        rooms = new TestRooms(Files.createDirectory(folder.resolve("host")), List.of(TestRooms.roomy(drive, "0000")));
        good("qualify --simulated steady-stick --session trio-8 --plan sound-check --enter-simulated --tag S-014");
    }

    private Typed type(String line) {
        return Typed.run(
                rooms,
                Stream.of(line.split(" "))
                        .map(word -> word.replace("HERE", folder.toString()))
                        .toArray(String[]::new));
    }

    private Typed good(String line) {
        Typed typed = type(line);
        assertThat(typed.code()).as(typed.out() + typed.err()).isZero();
        return typed;
    }

    private JsonNode listed() throws IOException {
        return new ObjectMapper().readTree(good("roster list --json").out()).at("/drives/0");
    }

    private RosterPlace place() {
        return RosterPlace.sqlite(rooms.rosterFolder().resolve(RosterPlace.FILE));
    }

    @Test
    void aRecordEnteredAgainWithoutItsSignatureChangesNothing() throws IOException {
        JsonNode before = listed();
        assertThat(before.get("standing").textValue()).isEqualTo("cleared");
        SignedRecord record;
        try (Roster roster = Roster.open(place(), RosterAccess.clock())) {
            record = roster.signedRecord(roster.history("S-014").get(0).event().ref());
        }
        TesterKey eve = TesterKey.create("Eve");
        SignedRecord bare = SignedRecord.kept(record.canonical(), record.by(), record.key(), new byte[0]);
        RosterEvent event = EventDraft.record(bare, null)
                .sign(eve, RosterAccess.clock().instant().minus(Duration.ofDays(9)));
        try (Roster other = Roster.open(RosterPlace.sqlite(folder.resolve("other.db")), RosterAccess.clock());
                OutputStream out = Files.newOutputStream(folder.resolve("forged.roster"))) {
            other.take(List.of(new Parcel(event, Intake.pack(record.canonical()))));
            ExchangeFile.write(other.peer(), out);
        }
        assertThat(good("roster import HERE/forged.roster").out()).contains("1 new");
        assertThat(listed()).isEqualTo(before);
    }

    @Test
    void oneLineThatIsNoEventIsRefusedByItself() throws IOException {
        good("roster export HERE/whole.roster");
        assertThat(type("roster export HERE/whole.roster").code()).isEqualTo(2);
        List<String> lines = Files.readAllLines(folder.resolve("whole.roster"));
        byte[] middle = (lines.get(1).replace("\"why\"", "\"wry\"") + "\n"
                        + String.join("\n", lines.subList(2, lines.size() - 1)) + "\n")
                .getBytes(java.nio.charset.StandardCharsets.UTF_8);
        String end = "{\"events\":" + (lines.size() - 2) + ",\"sha256\":\""
                + tracksoak.profiles.base.Digests.sha256Hex(middle) + "\"}\n";
        try (OutputStream out = Files.newOutputStream(folder.resolve("bad.roster"))) {
            out.write((lines.get(0) + "\n").getBytes(java.nio.charset.StandardCharsets.UTF_8));
            out.write(middle);
            out.write(end.getBytes(java.nio.charset.StandardCharsets.UTF_8));
        }
        Typed typed = type("roster import HERE/bad.roster --new-keys --roster HERE/fresh.db");
        assertThat(typed.code()).as(typed.out() + typed.err()).isEqualTo(2);
        assertThat(typed.out()).contains(lines.size() - 3 + " new, 0 known already, 1 refused");
        assertThat(typed.err())
                .contains("refused: "
                        + EventName.of(lines.get(1)
                                        .replace("\"why\"", "\"wry\"")
                                        .split("\t", 2)[0]
                                        .getBytes(java.nio.charset.StandardCharsets.UTF_8))
                                .orElseThrow());
    }
}
