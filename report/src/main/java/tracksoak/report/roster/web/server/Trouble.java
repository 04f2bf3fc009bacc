package tracksoak.report.roster.web.server;

/**
 * What went wrong, in the four parts every message has. Shown as it is to people and programs, so it never holds a
 * token, a path on the server or a stack trace.
 *
 * @param what what cannot be done
 * @param which the value or part it is about, may be empty
 * @param why why not
 * @param whatToDo what to do about it
 */
public record Trouble(String what, String which, String why, String whatToDo) {

    /** The parts in one line. */
    public String sentence() {
        return what + ": " + (which.isEmpty() ? "" : which + ": ") + why + "; " + whatToDo;
    }
}
