package tracksoak.bench.command.console;

import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.Verdict;

/** What the process tells the shell when it ends. */
public final class Exit {

    /** PASS, or the command did what was asked. */
    public static final int DONE = 0;

    /** The verdict is FAIL. */
    static final int FAIL = 1;

    /** The command line, or a file named in it, is wrong. */
    public static final int USAGE = 2;

    /** It could not run: drive gone, no room, internal error. */
    public static final int COULD_NOT_RUN = 3;

    /** The verdict is NO VERDICT. */
    static final int NO_VERDICT = 4;

    /** A person or the system ended it. */
    public static final int INTERRUPTED = 130;

    private Exit() {}

    /** The code a problem ends with. */
    public static int of(Problem.Kind kind) {
        return kind.ofTheAsker() ? USAGE : COULD_NOT_RUN;
    }

    /** The code a verdict ends with. */
    public static int of(Verdict.Outcome outcome) {
        return switch (outcome) {
            case PASS -> DONE;
            case FAIL -> FAIL;
            case NO_VERDICT -> NO_VERDICT;
        };
    }
}
