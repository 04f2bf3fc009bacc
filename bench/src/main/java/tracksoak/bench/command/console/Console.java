package tracksoak.bench.command.console;

import java.io.PrintWriter;
import java.util.Map;

/**
 * Where a command's words go. Data goes to {@code out}, everything else to {@code err}. Only the thread of the command
 * writes to it.
 *
 * @param out data
 * @param err progress, notices and complaints
 * @param outIsTerminal whether a person sees {@code out} directly
 * @param errIsTerminal whether a person sees {@code err} directly
 * @param environment the environment variables
 */
public record Console(
        PrintWriter out,
        PrintWriter err,
        boolean outIsTerminal,
        boolean errIsTerminal,
        Map<String, String> environment) {

    public Console {
        environment = Map.copyOf(environment);
    }

    private static final int USUAL_COLUMNS = 80;
    private static final int FEWEST_COLUMNS = 40;

    /**
     * Columns that a line of {@code out} may take: those of the terminal, which {@code COLUMNS} tells, or else the usual; no
     * end to them where no terminal shows it.
     */
    public int columns() {
        return outIsTerminal ? told() : Integer.MAX_VALUE;
    }

    /** The same of a line that is drawn over on {@code err}. */
    int errColumns() {
        return errIsTerminal ? told() : Integer.MAX_VALUE;
    }

    private int told() {
        String told = environment.getOrDefault("COLUMNS", "");
        return told.matches("[0-9]{1,4}") ? Math.max(FEWEST_COLUMNS, Integer.parseInt(told)) : USUAL_COLUMNS;
    }

    /** Whether colours and bold may be used on {@code out}: asked for by a terminal, refused by NO_COLOR or TERM=dumb. */
    public boolean outMayBeStyled() {
        return outIsTerminal && stylesWanted();
    }

    /** Whether a line on {@code err} may be drawn over: a dumb terminal cannot. */
    boolean errMayBeRedrawn() {
        return errIsTerminal && !"dumb".equals(environment.get("TERM"));
    }

    /** A sentence for the person at the keyboard. */
    public void say(String sentence) {
        new Wrapped(err, errColumns()).harmless("tracksoak: ", 2, sentence);
        err.flush();
    }

    /** A complaint, with what to do on a line of its own. */
    public void complain(String what, String todo) {
        new Wrapped(err, errColumns()).harmless("tracksoak: ", 2, what);
        if (!todo.isEmpty()) {
            new Wrapped(err, errColumns()).harmless("  → ", 4, todo);
        }
        err.flush();
    }

    private boolean stylesWanted() {
        return environment.getOrDefault("NO_COLOR", "").isEmpty() && !"dumb".equals(environment.get("TERM"));
    }
}
