package tracksoak.bench.command.main;

import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.profiles.Closest;
import tracksoak.profiles.base.Inert;

/** Says what is wrong with a command line, in one line, with what might have been meant. */
final class WrongCommandLine implements IParameterExceptionHandler {

    private final Console console;

    WrongCommandLine(Console console) {
        this.console = console;
    }

    @Override
    public int handleParseException(ParameterException wrong, String[] args) {
        CommandLine command = wrong.getCommandLine();
        String what = String.valueOf(wrong.getMessage());
        String name = command.getCommandSpec().qualifiedName();
        String todo = "see " + name + " --help";
        if (wrong instanceof UnmatchedArgumentException unmatched) {
            what = describe(unmatched);
            todo = meant(unmatched)
                            .map(word -> "did you mean " + word + "? Otherwise ")
                            .orElse("")
                    + todo;
        }
        console.complain(Inert.whole(what), Inert.whole(todo));
        return Exit.USAGE;
    }

    private static Optional<String> meant(UnmatchedArgumentException unmatched) {
        CommandLine command = unmatched.getCommandLine();
        String typed = unmatched.getUnmatched().get(0);
        return unmatched.isUnknownOption()
                ? Closest.to(
                        typed.split("=", 2)[0],
                        command.getCommandSpec().optionsMap().keySet())
                : Closest.to(typed, command.getSubcommands().keySet());
    }

    private static String describe(UnmatchedArgumentException unmatched) {
        CommandLine command = unmatched.getCommandLine();
        String first = Inert.quoted(unmatched.getUnmatched().get(0));
        String of = command.getParent() == null
                ? ""
                : " for " + command.getCommandSpec().qualifiedName();
        if (unmatched.isUnknownOption()) {
            return "unknown option " + first + of;
        }
        return (command.getSubcommands().isEmpty() ? "one word too many: " : "unknown command ") + first + of;
    }
}
