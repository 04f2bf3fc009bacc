package tracksoak.bench.command.main;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.Terminals;

/** A command knows the same whether those beside it were put together or left out. */
class CommandLinesTest {

    @TempDir
    Path folder;

    private final Console console = Terminals.ofThisProcess();

    private CommandLine of(List<String> words) {
        return CommandLines.of(console, new TestRooms(folder, List.of()), ProcessEnd.INSTANCE, words);
    }

    @Test
    void everyCommandSaysOfItselfWhatItSaysAmongAll() {
        List<List<String>> paths = new ArrayList<>();
        collect(of(List.of()), List.of(), paths);
        assertThat(paths)
                .contains(List.of("roster", "list"), List.of("sessions", "check"), List.of("completion"))
                .hasSizeGreaterThan(25);
        for (List<String> path : paths) {
            CommandLine among = down(of(List.of()), path);
            CommandLine alone = down(of(path), path);
            assertThat(alone.getUsageMessage()).as("%s", path).isEqualTo(among.getUsageMessage());
        }
    }

    @Test
    void thoseBesideItAreLeftOut() {
        assertThat(of(List.of("roster", "list")).getSubcommands()).containsOnlyKeys("roster");
        assertThat(down(of(List.of("roster", "lisst")), List.of("roster")).getSubcommands())
                .containsKeys("list", "show");
        assertThat(of(List.of("rooster")).getSubcommands()).containsKeys("roster", "drives");
        assertThat(of(List.of("completion")).getSubcommands()).containsKeys("roster", "drives");
    }

    /** In one sentence, in plain words, with the name of what it is about. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        qualify --take                        | --take needs a value, TIME
        qualify --tray --take 1min            | --tray needs a value, [TAG=]PATH
        qualify --take 3x /tmp                | --take: "3x" is not a time. Write it like
        qualify /tmp --writers 4.5            | --writers: "4.5" is not a whole number
        qualify /tmp --plan line-chek         | --plan: "line-chek" is not a plan; did you mean line-check?
        qualify /tmp --take 1min --take 2min  | --take is given more than once
        inspect                               | PATH is missing
        roster tag                            | DRIVE and TAG are missing
        roster tag S-1                        | TAG is missing
        roster tag S-1 -x                     | unknown option "-x" for tracksoak roster tag
        roster tag S-1 --jsn                  | unknown option "--jsn" for tracksoak roster tag
        drives --jsn                          | did you mean --json? Otherwise see tracksoak drives --help
        roster lst                            | did you mean list? Otherwise see tracksoak roster --help
        help qualfy                           | did you mean qualify? Otherwise see tracksoak --help
        demo now                              | one word too many: "now" for tracksoak demo
        """)
    void whatIsTypedWrongIsSaidPlainly(String typed, String said) {
        Typed wrong = Typed.run(new TestRooms(folder, List.of()), typed.split(" ", -1));
        assertThat(wrong.code()).isEqualTo(Exit.USAGE);
        assertThat(wrong.out()).isEmpty();
        assertThat(wrong.err().replaceAll("\\s+", " "))
                .contains(said)
                .startsWith("tracksoak: ")
                .doesNotContain("Invalid value", "Missing required", "parameter");
    }

    private static void collect(CommandLine line, List<String> path, List<List<String>> paths) {
        line.getSubcommands().forEach((name, below) -> {
            List<String> own = new ArrayList<>(path);
            own.add(name);
            paths.add(own);
            collect(below, own, paths);
        });
    }

    private static CommandLine down(CommandLine line, List<String> path) {
        CommandLine at = line;
        for (String name : path) {
            at = Objects.requireNonNull(at.getSubcommands().get(name), name);
        }
        return at;
    }
}
