package tracksoak.bench.command.main;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.profiles.Closest;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** Prints manual pages, or writes all of them. */
@Command(
        name = "man",
        header = "Print a command's manual page: tracksoak man qualify | man -l -",
        description = "All that can be said of a command and its options, for man(1).")
final class ManCommand implements Callable<Integer> {

    @Parameters(arity = "0..*", paramLabel = "COMMAND", description = "The command, such as qualify or roster list.")
    List<String> words = List.of();

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FOLDER",
            description = "Write the pages of all commands into this folder instead, as MANPATH/man1 wants them.")
    @Nullable
    Path out;

    @Mixin
    HelpOption help = new HelpOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    CommandSpec spec;

    private final Console console;

    ManCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        CommandSpec asked = spec.root();
        for (String word : words) {
            CommandLine below = asked.subcommands().get(word);
            if (below == null) {
                throw Problem.askedWrong(
                        "there is no command " + Inert.quoted(word)
                                + Closest.hint(word, asked.subcommands().keySet()),
                        "tracksoak --help lists the commands");
            }
            asked = below.getCommandSpec();
        }
        Path folder = out;
        if (folder == null) {
            console.out().print(ManPage.of(asked));
        } else {
            try {
                Files.createDirectories(folder);
                write(asked, folder);
            } catch (IOException refused) {
                throw Problem.cannot(
                        "the pages cannot be written to " + Inert.quoted(folder) + " (" + Problem.reason(refused) + ")",
                        "name another folder with --out");
            }
        }
        return Exit.DONE;
    }

    private static void write(CommandSpec command, Path folder) throws IOException {
        Files.writeString(folder.resolve(ManPage.name(command) + ".1"), ManPage.of(command), StandardCharsets.UTF_8);
        for (CommandLine below : command.subcommands().values()) {
            write(below.getCommandSpec(), folder);
        }
    }
}
