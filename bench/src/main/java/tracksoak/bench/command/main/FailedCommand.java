package tracksoak.bench.command.main;

import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.session.SessionsCommand;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** Turns what a command throws into words and an exit code. Never shows a stack trace unless TRACKSOAK_TRACE is set. */
final class FailedCommand implements IExecutionExceptionHandler {

    /** Environment variable: if set to anything, stack traces are shown. */
    static final String TRACE = "TRACKSOAK_TRACE";

    private final Console console;

    FailedCommand(Console console) {
        this.console = console;
    }

    @Override
    public int handleExecutionException(Exception failure, CommandLine command, ParseResult parsed) {
        return handle(failure);
    }

    int handle(Throwable failure) {
        console.out().flush();
        if (console.environment().containsKey(TRACE)) {
            failure.printStackTrace(console.err());
        }
        if (failure instanceof ProfileException wrong) {
            SessionsCommand.complainAbout(wrong.errors(), console);
            return Exit.USAGE;
        }
        if (failure instanceof Problem problem) {
            console.complain(lines(problem.told()), lines(problem.todo()));
            return Exit.of(problem.kind());
        }
        console.complain(
                "something inside Tracksoak went wrong: " + Inert.whole(failure.toString()),
                "nothing more is known; set " + TRACE + "=1 and run it again to see where, and report that");
        return Exit.COULD_NOT_RUN;
    }

    /** What is told on several lines stays so. */
    private static String lines(String text) {
        return text.lines().map(Inert::whole).collect(Collectors.joining(System.lineSeparator()));
    }
}
