package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.store.RosterPlace;

/** A roster on a file system that is full, or cannot be written: a backup on a stick that is locked. */
@NeedsRig
class RosterOnDriveTest {

    @TempDir
    Path folder;

    private Path file = Path.of("");
    private Rooms rooms;

    @BeforeEach
    void furnish() throws IOException {
        rooms = new TestRooms(Files.createDirectory(folder.resolve("host")), List.of());
    }

    private Typed type(String line) {
        return Typed.run(
                rooms,
                Stream.of(line.split(" "))
                        .map(word -> word.replace("HERE", folder.toString()))
                        .map(word -> word.equals("FILE") ? file.toString() : word)
                        .toArray(String[]::new));
    }

    private Typed good(String line) {
        Typed typed = type(line);
        assertThat(typed.code()).as(typed.out() + typed.err()).isZero();
        return typed;
    }

    private void fillRoster(LoopMount drive) {
        file = drive.path().resolve("crew.db");
        good("qualify --simulated steady-stick --session trio-8 --length 1h --plan line-check --take 10s"
                + " --enter-simulated --tag S-014 --roster FILE");
    }

    @Test
    void aRosterOnAFileSystemThatCannotBeWrittenIsRead() {
        try (LoopMount drive = LoopMount.ext4(16)) {
            fillRoster(drive);
            String list = good("roster list --csv --roster FILE").out();
            drive.refuseWrites();
            assertThat(good("roster list --csv --roster FILE").out())
                    .contains("S-014")
                    .isEqualTo(list);
            assertThat(good("roster show S-014 --roster FILE").out()).contains("S-014");
            good("roster export HERE/carried.roster --roster FILE");
            Typed note = type("roster note S-014 hello --roster FILE");
            assertThat(note.code()).isEqualTo(3);
            assertThat(note.err())
                    .contains("crew.db", "cannot be written", "copy it to a folder that can be written")
                    .doesNotContain("SQLITE");
        }
    }

    @Test
    void whatIsStillInTheLogOfOneThatCannotBeWrittenIsNotLeftOut() throws IOException {
        try (LoopMount drive = LoopMount.ext4(16)) {
            fillRoster(drive);
            Files.write(file.resolveSibling("crew.db-wal"), new byte[100]);
            drive.refuseWrites();
            Typed list = type("roster list --roster FILE");
            assertThat(list.code()).isEqualTo(3);
            assertThat(list.err())
                    .contains(
                            "crew.db cannot be written, nor what lies beside it",
                            "copy it, with crew.db-wal, to a folder that can be written")
                    .doesNotContain("SQLITE");
        }
    }

    /** Its own process may not write there, others may: what they write is seen at once, with a log beside the file and without. */
    @Test
    void aServedRosterThatOnlyOthersMayWriteShowsWhatTheyWrite() throws Exception {
        try (LoopMount drive = LoopMount.ext4(16)) {
            fillRoster(drive);
            Path view = drive.readOnlyView().resolve("crew.db");
            try (Program server = serve(view)) {
                String base = address(server);
                for (String note : List.of("wobble1", "wobble2")) {
                    assertThat(page(base)).contains("S-014").doesNotContain(note);
                    // the last that writes takes its log away with it
                    good("roster note S-014 " + note + " --roster FILE");
                    assertThat(file.resolveSibling("crew.db-wal")).doesNotExist();
                    assertThat(page(base)).contains(note);
                }
                try (Roster writer = Roster.open(RosterPlace.sqlite(file), RosterAccess.clock())) {
                    TesterKey key = TesterKey.create("Wren");
                    for (String note : List.of("wobble3", "wobble4")) {
                        writer.desk(key).note("S-014", note);
                        assertThat(file.resolveSibling("crew.db-wal")).isNotEmptyFile();
                        assertThat(page(base)).contains(note);
                    }
                }
                good("roster note S-014 wobbly --roster FILE");
                assertThat(page(base)).contains("wobbly");
            }
        }
    }

    private Program serve(Path roster) {
        return Program.of(
                folder.resolve("host"), "roster", "serve", "--port", "0", "--json", "--roster", roster.toString());
    }

    private static String address(Program server) {
        assertThat(Host.await(60_000, () -> server.output().contains("\"port\": ")))
                .as(server.output())
                .isTrue();
        return server.output().replaceAll("(?s).*\"address\": \"([^\"]*)\".*", "$1");
    }

    private static String page(String base) throws IOException, InterruptedException {
        HttpResponse<String> answer = HttpClient.newHttpClient()
                .send(
                        HttpRequest.newBuilder(URI.create(base + "drives/S-014"))
                                .header("Accept", "text/html")
                                .build(),
                        HttpResponse.BodyHandlers.ofString());
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return answer.body();
    }

    /** What is handed over is taken whole or not at all, whoever reads goes on, and once there is room the rest follows. */
    @Test
    void aServedRosterOnAFullDiskRefusesWholeAndRecovers() throws Exception {
        try (LoopMount drive = LoopMount.ext4(16)) {
            fillRoster(drive);
            Path mine = folder.resolve("mine.db");
            good("qualify --simulated steady-stick --seed 7 --session trio-8 --length 1h --plan line-check --take 10s"
                    + " --enter-simulated --tag S-015 --roster HERE/mine.db");
            Path token = folder.resolve("token");
            try (Program tokens = Program.of(folder.resolve("host"), "roster", "tokens", "--add", "laptop")) {
                assertThat(tokens.await()).isZero();
                Files.writeString(
                        token,
                        tokens.output()
                                .lines()
                                .filter(line -> line.startsWith("crew-"))
                                .findFirst()
                                .orElseThrow());
                Files.setPosixFilePermissions(token, PosixFilePermissions.fromString("rw-------"));
            }
            try (Program server = serve(file)) {
                String base = address(server);
                String sync = "roster sync " + base + " --token-file HERE/token --roster HERE/mine.db";
                assertThat(page(base)).contains("S-014");
                Path full = drive.path().resolve("full");
                fill(full);
                // until the log of the database has used up what room it had
                Typed refused = type(sync);
                for (int i = 0; i < 100 && refused.code() == 0; i++) {
                    try (Roster laptop = Roster.open(RosterPlace.sqlite(mine), RosterAccess.clock())) {
                        TesterKey key = TesterKey.create("Wren " + i);
                        laptop.desk(key).note("S-015", "x".repeat(900));
                    }
                    refused = type(sync);
                }
                assertThat(refused.code()).isEqualTo(3);
                assertThat(refused.err()).contains("its store cannot be used just now", "sync again in a while");
                assertThat(server.output()).contains("no room is left for", "what was acknowledged before is safe");
                assertThat(page(base)).contains("S-014");
                Files.delete(full);
                assertThat(good(sync).out()).contains("Both sides have the same now");
            }
            assertThat(good("roster list --csv --roster FILE").out())
                    .isEqualTo(good("roster list --csv --roster HERE/mine.db").out());
        }
    }

    @Test
    void aFullDiskIsSaidToWhoeverReadsToo() throws IOException {
        try (LoopMount drive = LoopMount.ext4(16)) {
            fillRoster(drive);
            fill(drive.path().resolve("full"));
            Typed list = type("roster list --roster FILE");
            assertThat(list.code()).isEqualTo(3);
            assertThat(list.err()).contains("no room is left for", "make room").doesNotContain("SQLITE");
        }
    }

    private static void fill(Path file) throws IOException {
        byte[] block = new byte[1024];
        try (OutputStream out = Files.newOutputStream(file)) {
            while (true) {
                out.write(block);
            }
        } catch (IOException full) {
            assertThat(Files.getFileStore(file).getUsableSpace()).isLessThan(4096);
        }
    }
}
