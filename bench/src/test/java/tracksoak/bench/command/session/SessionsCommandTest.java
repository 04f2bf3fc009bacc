package tracksoak.bench.command.session;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;

class SessionsCommandTest {

    @TempDir
    Path folder;

    private TestRooms rooms;

    @BeforeEach
    void furnish() {
        rooms = new TestRooms(folder, List.of());
    }

    @Test
    void listsEveryShippedSession() {
        Typed typed = Typed.run(rooms, "sessions");
        assertThat(typed.code()).isZero();
        assertThat(typed.err()).isEmpty();
        assertThat(typed.out())
                .contains("band-32", "festival-64", "playback-16", "4.61 MB/s", "32 × 48/24 + 2 × 96/24");
        assertThat(typed.out().substring(0, typed.out().indexOf("One in full")).lines())
                .as("a usual terminal has 80 columns")
                .allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
    }

    /** 32 tracks at 48 kHz/24-bit: 32 × 144,000 B/s; 8.64 MB per minute and track (arithmetic, rates from AES5). */
    @Test
    void showsOneWithItsDemand() throws Exception {
        Typed typed = Typed.run(rooms, "sessions", "show", "band-32");
        assertThat(typed.out())
                .contains("4.61 MB/s, 276 MB per minute, 16.6 GB per hour", "8.64 MB per minute", "exFAT", "FAT32");
        JsonNode document = new ObjectMapper()
                .readTree(Typed.run(rooms, "sessions", "show", "band-32", "--json")
                        .out());
        assertThat(document.get("schema").textValue()).isEqualTo("tracksoak/session/1");
        assertThat(document.at("/demand/bytesPerSecond").longValue()).isEqualTo(4_608_000);
        assertThat(document.at("/demand/rooms")).hasSize(2);
    }

    @Test
    void saysHowLongFreeSpaceLasts() throws Exception {
        JsonNode document = new ObjectMapper()
                .readTree(Typed.run(
                                rooms,
                                "sessions",
                                "show",
                                "band-32",
                                "--on",
                                "exfat",
                                "--cluster",
                                "128KiB",
                                "--free",
                                "4608MB",
                                "--json")
                        .out());
        // 1,000 s of samples, less what files and folder cost
        assertThat(document.at("/freeLastsS").longValue()).isBetween(995L, 999L);
    }

    @Test
    void aWrongNameIsAnsweredWithTheRightOne() {
        Typed typed = Typed.run(rooms, "sessions", "show", "bnd-32");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.out()).isEmpty();
        assertThat(typed.err()).contains("\"bnd-32\"", "did you mean band-32?");
    }

    @Test
    void whatIsPrintedToStartFromIsInOrderOnceItHasItsOwnName() throws IOException {
        Typed text = Typed.run(rooms, "sessions", "text", "trio-8");
        assertThat(text.code()).isZero();
        Files.createDirectories(rooms.sessionsFolder());
        Path own = rooms.sessionsFolder().resolve("lantern-wagon-8.toml");
        Files.writeString(own, text.out().replace("\"trio-8\"", "\"lantern-wagon-8\""));
        Typed check = Typed.run(rooms, "sessions", "check", own.toString());
        assertThat(check.code()).isZero();
        assertThat(check.out()).contains("lantern-wagon-8", "in order");
        assertThat(Typed.run(rooms, "sessions").out())
                .contains("lantern-wagon-8")
                .contains("yours");
    }

    @Test
    void everyErrorOfAFileIsListedAtOnce() throws Exception {
        Path own = folder.resolve("wrong.toml");
        Files.writeString(
                own,
                Typed.run(rooms, "sessions", "text", "trio-8")
                        .out()
                        .replace("flush_s = 10", "flush_s = 9999")
                        .replace("writers = 1", "writers = 0"));
        Typed typed = Typed.run(rooms, "sessions", "check", own.toString());
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err())
                .contains("flush_s", "9999", "writers", "wrong.toml:")
                .contains("→");
        JsonNode document = new ObjectMapper()
                .readTree(Typed.run(rooms, "sessions", "check", own.toString(), "--json")
                        .out());
        assertThat(document.get("inOrder").booleanValue()).isFalse();
        assertThat(document.get("errors").size()).isGreaterThanOrEqualTo(2);
    }

    @Test
    void aBrokenFileOfTheUsersDoesNotHideTheOthers() throws IOException {
        Files.createDirectories(rooms.sessionsFolder());
        Files.writeString(rooms.sessionsFolder().resolve("broken.toml"), "name = ");
        Typed typed = Typed.run(rooms, "sessions");
        assertThat(typed.code()).isZero();
        assertThat(typed.out()).contains("band-32");
        assertThat(typed.err()).contains("broken.toml");
    }

    @Test
    void aKeyThatIsMissingIsNamedWithoutAValue() throws IOException {
        Path bare = Files.writeString(folder.resolve("bare.toml"), "title = \"Bare\"\n");
        Typed typed = Typed.run(rooms, "sessions", "check", bare.toString());
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains(":1: name: is missing").doesNotContain("= :");
    }
}
