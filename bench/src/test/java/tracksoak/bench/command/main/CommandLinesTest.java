package tracksoak.bench.command.main;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.console.Console;
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
