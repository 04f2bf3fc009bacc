package tracksoak.bench.command.console;

import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;
import tracksoak.bench.command.session.SessionsCommand;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.RecordException;

/** Turns what a command throws into words and an exit code. Never shows a stack trace unless TRACKSOAK_TRACE is set. */
public final class FailedCommand implements IExecutionExceptionHandler {

    /** Environment variable: if set to anything, stack traces are shown. */
    static final String TRACE = "TRACKSOAK_TRACE";

    private final Console console;

    public FailedCommand(Console console) {
        this.console = console;
    }

    @Override
    public int handleExecutionException(Exception failure, CommandLine command, ParseResult parsed) {
        return handle(failure);
    }

    public int handle(Throwable failure) {
        console.out().flush();
        if (console.environment().containsKey(TRACE)) {
            failure.printStackTrace(console.err());
        }
        if (failure instanceof Complaint complaint) {
            console.complain(Words.plainLines(complaint.what()), Words.plainLines(complaint.todo()));
            return complaint.exitCode();
        }
        if (failure instanceof Problem wrong) {
            return roster(wrong);
        }
        if (failure instanceof RecordException wrong) {
            return handle(Complaint.of(Exit.COULD_NOT_RUN, wrong));
        }
        if (failure instanceof ProfileException wrong) {
            SessionsCommand.complainAbout(wrong.errors(), console);
            return Exit.USAGE;
        }
        console.complain(
                "something inside Tracksoak went wrong: " + Words.plain(failure.toString()),
                "nothing more is known; set " + TRACE + "=1 and run it again to see where, and report that");
        return Exit.COULD_NOT_RUN;
    }

    private int roster(Problem wrong) {
        console.complain(Words.plain(wrong.told()), Words.plain(wrong.todo()));
        return wrong.kind().ofTheAsker() ? Exit.USAGE : Exit.COULD_NOT_RUN;
    }
}
