package tracksoak.bench.command.main;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.MissingParameterException;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.OverwrittenOptionException;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.profiles.Closest;
import tracksoak.profiles.base.Inert;

/** Says what is wrong with a command line, in one line, with what might have been meant. */
final class WrongCommandLine implements IParameterExceptionHandler {

    /** How the parser begins when a converter takes a value for none of its kind; what the converter says comes after a colon. */
    private static final String NOT_TAKEN = "Invalid value for ";

    private static final Pattern QUOTED = Pattern.compile("'([^']+)'");

    private final Console console;

    WrongCommandLine(Console console) {
        this.console = console;
    }

    @Override
    public int handleParseException(ParameterException wrong, String[] args) {
        CommandLine command = wrong.getCommandLine();
        String what = describe(wrong);
        String name = command.getCommandSpec().qualifiedName();
        String todo = "see " + name + " --help";
        Optional<String> meant = Optional.empty();
        UnmatchedArgumentException unmatched = unmatched(wrong);
        if (unmatched != null) {
            what = describe(unmatched);
            meant = meant(unmatched);
        } else if (wrong.getArgSpec() == null && wrong.getValue() != null) { // asked "help" for
            what = "unknown command " + Inert.quoted(wrong.getValue());
            meant = Closest.to(wrong.getValue(), command.getSubcommands().keySet());
        }
        todo = meant.map(word -> "did you mean " + word + "? Otherwise ").orElse("") + todo;
        console.complain(Inert.whole(what), Inert.whole(todo));
        return Exit.USAGE;
    }

    /** What the command line has too much; an option that is none of the command's, too, where it stands in the place of a word that is missing then. */
    private static @Nullable UnmatchedArgumentException unmatched(ParameterException wrong) {
        if (wrong instanceof UnmatchedArgumentException known) {
            return known;
        }
        CommandLine command = wrong.getCommandLine();
        return wrong instanceof MissingParameterException
                ? command.getUnmatchedArguments().stream()
                        .filter(word -> word.startsWith("-"))
                        .findFirst()
                        .map(word -> new UnmatchedArgumentException(command, List.of(word)))
                        .orElse(null)
                : null;
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

    private static String describe(ParameterException wrong) {
        String said = String.valueOf(wrong.getMessage());
        if (wrong instanceof OverwrittenOptionException twice) {
            return name(twice.getOverwritten()) + " is given more than once";
        }
        ArgSpec at = wrong.getArgSpec();
        if (wrong instanceof MissingParameterException missing) {
            ArgSpec first = missing.getMissing().get(0);
            List<String> names =
                    QUOTED.matcher(said).results().map(found -> found.group(1)).toList();
            return first.isOption()
                    ? name(first) + " needs a value, " + first.paramLabel()
                    : String.join(" and ", names) + (names.size() == 1 ? " is missing" : " are missing");
        }
        return at == null || !said.startsWith(NOT_TAKEN) ? said : name(at) + said.substring(said.indexOf(": "));
    }

    private static String name(ArgSpec part) {
        return part instanceof OptionSpec option ? option.longestName() : part.paramLabel();
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
