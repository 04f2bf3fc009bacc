package tracksoak.bench.command.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.command.console.Exit;
import tracksoak.report.page.bench.HelpView;

class BenchCommandTest {

    private static final Pattern OPTION = Pattern.compile("--[a-z-]+");

    @TempDir
    Path folder;

    @Test
    void aPortThatIsNoneIsRefusedBeforeAnythingElse() {
        TestRooms rooms = new TestRooms(folder, List.of());
        Typed bench = Typed.run(rooms, "bench", "--no-browser", "--port=99999");
        assertThat(bench.code()).isEqualTo(Exit.USAGE);
        assertThat(bench.err()).contains("port 99999").contains("1 to 65535");
        assertThat(rooms.stateFolder().resolve("bench")).doesNotExist();
    }

    /** Folder and lock as earlier versions made them: whoever may read the file can hold a lock on it. */
    @Test
    @DisabledOnOs(OS.WINDOWS)
    void noOtherUserCanHoldTheLockOfTheBench() throws IOException {
        Path bench = Files.createDirectory(folder.resolve("bench"));
        Path lock = Files.createFile(bench.resolve("lock"));
        Files.setPosixFilePermissions(bench, PosixFilePermissions.fromString("rwxr-xr-x"));
        Files.setPosixFilePermissions(lock, PosixFilePermissions.fromString("rw-r--r--"));
        try (BenchDoor door = BenchDoor.at(folder)) {
            assertThat(door.taken()).isFalse();
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(bench)))
                    .isEqualTo("rwx------");
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(lock)))
                    .isEqualTo("rw-------");
        }
    }

    /** What a page says somebody can type is there to be typed. */
    @Test
    void theHelpOfThePageNamesEveryCommandAndNoOptionThatThereIsNot() {
        CommandLine all = Typed.commands(new TestRooms(folder, List.of()));
        List<HelpView.Command> shown = BenchCommand.commands(all.getCommandSpec());
        for (String command : all.getSubcommands().keySet()) {
            if (!command.equals("bench") && !command.equals("help")) {
                assertThat(shown).anyMatch(one -> (one.words() + " ").startsWith("tracksoak " + command + " "));
            }
        }
        assertThat(shown).anyMatch(one -> one.words().contains("--leave-keepsake"));
        for (HelpView.Command one : shown) {
            String name = one.words().split(" ", -1)[1];
            assertThat(all.getSubcommands()).as(one.words()).containsKey(name);
            CommandSpec known =
                    Objects.requireNonNull(all.getSubcommands().get(name)).getCommandSpec();
            assertThat(one.meaning()).as(one.words()).matches("[A-Z].{10,}");
            assertThat(OPTION.matcher(one.words()).results().map(found -> found.group()))
                    .as(one.words())
                    .allMatch(option -> known.findOption(option) != null);
            assertThat(one.words()).doesNotContain("[").doesNotContain("null");
        }
    }
}
