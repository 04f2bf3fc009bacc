package tracksoak.bench.command.drives;

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
import tracksoak.bench.command.LeftBehind;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.Rooms;

class ClearCommandTest {

    @TempDir
    Path folder;

    private Path drive;
    private Rooms rooms;
    private Path left;

    /** A process that is long gone left this behind. */
    @BeforeEach
    void leaveSomethingBehind() throws IOException {
        drive = Files.createDirectory(folder.resolve("drive"));
        rooms = new TestRooms(Files.createDirectory(folder.resolve("host")), List.of(TestRooms.roomy(drive)));
        left = LeftBehind.in(drive);
        Files.write(left.resolve("track-003-part-1.soak"), new byte[4096]);
    }

    private Typed type(String... words) {
        return Typed.run(
                rooms,
                Stream.concat(Stream.of("clear", drive.toString()), Stream.of(words))
                        .toArray(String[]::new));
    }

    @Test
    void withoutYesItOnlyLists() {
        Typed typed = type();
        assertThat(typed.code()).isZero();
        assertThat(typed.out()).contains("found ", left.toString());
        assertThat(typed.err()).contains("nothing was deleted", "--yes");
        assertThat(left).isDirectory();
    }

    @Test
    void withYesItDeletesTheRunsFolderAndNothingElse() throws IOException {
        Files.writeString(drive.resolve("show.wav"), "precious");
        JsonNode document = new ObjectMapper().readTree(type("--yes", "--json").out());
        assertThat(document.get("schema").textValue()).isEqualTo("tracksoak/clear/1");
        assertThat(document.at("/folders/0/deleted").booleanValue()).isTrue();
        assertThat(left).doesNotExist();
        assertThat(drive.resolve("show.wav")).hasContent("precious");
    }

    @Test
    void aFolderThatHoldsAnythingElseIsLeftAlone() throws IOException {
        Files.writeString(left.resolve("show.wav"), "precious");
        Typed typed = type("--yes");
        assertThat(typed.code()).isEqualTo(3);
        assertThat(typed.err()).contains("show.wav");
        assertThat(left.resolve("track-003-part-1.soak")).exists();
    }

    /** An empty path comes of a variable that is not set, and would mean the folder one happens to be in. */
    @Test
    void whatIsNoFolderIsRefused() throws IOException {
        Path file = Files.writeString(drive.resolve("show.wav"), "precious");
        Typed typed = Typed.run(rooms, "clear", file.toString(), "--yes");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("show.wav\" is no folder");
        for (String command : new String[] {"clear", "climb", "drill", "requalify"}) {
            Typed empty = command.equals("climb") || command.equals("drill")
                    ? Typed.run(rooms, command, "", "--session", "trio-8")
                    : Typed.run(rooms, command, "");
            assertThat(empty.code()).as(command).isEqualTo(2);
            assertThat(empty.err()).as(command).contains("the PATH given is empty");
        }
        assertThat(left).isDirectory();
    }

    @Test
    void nothingLeftIsFine() throws IOException {
        type("--yes");
        Typed typed = type();
        assertThat(typed.code()).isZero();
        assertThat(typed.out()).contains("Nothing of an earlier run");
    }

    @Test
    void theNextRunTellsOfIt() {
        Typed typed = Typed.run(rooms, "qualify", drive.toString(), "-s", "trio-8", "-p", "line-check", "-n");
        assertThat(typed.code()).isZero();
        assertThat(typed.err()).contains("of earlier runs", "tracksoak clear");
    }
}
