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
        err.println("tracksoak: " + sentence);
        err.flush();
    }

    /** A complaint, with what to do on a line of its own. */
    public void complain(String what, String todo) {
        err.println("tracksoak: " + what);
        if (!todo.isEmpty()) {
            err.println("  → " + todo);
        }
        err.flush();
    }

    private boolean stylesWanted() {
        return environment.getOrDefault("NO_COLOR", "").isEmpty() && !"dumb".equals(environment.get("TERM"));
    }
}
