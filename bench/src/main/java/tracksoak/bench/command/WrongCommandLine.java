package tracksoak.bench.command;

import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

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
            List<String> like = unmatched.getSuggestions();
            what = describe(unmatched);
            if (!like.isEmpty()) {
                todo = "did you mean " + String.join(" or ", like.subList(0, Math.min(3, like.size()))) + "? Otherwise "
                        + todo;
            }
        }
        console.complain(Words.plain(what), Words.plain(todo));
        return Exit.USAGE;
    }

    private static String describe(UnmatchedArgumentException unmatched) {
        CommandLine command = unmatched.getCommandLine();
        String first = Words.quoted(unmatched.getUnmatched().get(0));
        String of = command.getParent() == null
                ? ""
                : " for " + command.getCommandSpec().qualifiedName();
        if (unmatched.isUnknownOption()) {
            return "unknown option " + first + of;
        }
        return (command.getSubcommands().isEmpty() ? "one word too many: " : "unknown command ") + first + of;
    }
}
