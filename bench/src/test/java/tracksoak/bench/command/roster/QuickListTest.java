package tracksoak.bench.command.roster;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;

/** What is read without the library is what the library reads, and what is not is left to it. */
class QuickListTest {

    private final Rooms rooms = new TestRooms(Path.of(""), List.of());
    private final Console console = new Console(
            new PrintWriter(new StringWriter()), new PrintWriter(new StringWriter()), false, false, Map.of());

    private static List<String> words(String typed) {
        return Stream.concat(Stream.of("roster", "list"), Arrays.stream(typed.split(" ")))
                .filter(word -> !word.isEmpty())
                .toList();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "--json",
                "--csv",
                "--json --csv",
                "--session trio-8",
                "--roster a.db --session trio-8 --json",
                "--tonight trio-8 --roster postgresql://host/db",
                "--session no-such --tonight neither"
            })
    void bothReadTheSame(String typed) {
        RosterListCommand quick = QuickList.read(console, rooms, words(typed)).orElseThrow();
        RosterListCommand slow = new RosterListCommand(console, rooms);
        new CommandLine(slow)
                .parseArgs(words(typed).subList(2, words(typed).size()).toArray(new String[0]));
        assertThat(quick)
                .usingRecursiveComparison()
                .ignoringFields("console", "rooms", "help")
                .isEqualTo(slow);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--help",
                "-s trio-8",
                "--session",
                "--session=trio-8",
                "--session --json",
                "--json --json",
                "--session a --session b",
                "--standing due",
                "--tag x",
                "--session-file x.toml",
                "--no-such",
                "trio-8"
            })
    void whatIsNotKnownForCertainIsLeftToTheLibrary(String typed) {
        assertThat(QuickList.read(console, rooms, words(typed))).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "roster", "roster show S-014", "list roster", "drives --json"})
    void otherCommandsAreLeftToTheLibrary(String typed) {
        assertThat(QuickList.read(console, rooms, List.of(typed.split(" ")))).isEmpty();
    }
}
