package tracksoak.bench.command.console;

import tracksoak.report.record.facts.RecordException;

/** Something a person can act on: what is wrong, why, and what to do. Ends the command with its exit code. */
public final class Complaint extends RuntimeException {

    private static final long serialVersionUID = 1L;

    private final int exitCode;
    private final String todo;

    /**
     * @param exitCode one of {@link Exit}
     * @param what what is wrong, which value and why, in one or more whole sentences
     * @param todo what to do about it, empty if nothing can be
     */
    public Complaint(int exitCode, String what, String todo) {
        super(what);
        this.exitCode = exitCode;
        this.todo = todo;
    }

    /** A command line that is wrong. */
    public static Complaint usage(String what, String todo) {
        return new Complaint(Exit.USAGE, what, todo);
    }

    /** A command that could not run. */
    public static Complaint cannot(String what, String todo) {
        return new Complaint(Exit.COULD_NOT_RUN, what, todo);
    }

    /** A record that cannot be read or written. */
    public static Complaint of(int exitCode, RecordException wrong) {
        String where = wrong.where().isEmpty() ? "" : ": " + wrong.where();
        return new Complaint(exitCode, wrong.what() + where + ": " + wrong.why(), wrong.todo());
    }

    /** A session the recorder loop cannot be built for. */
    public static Complaint unfit(IllegalArgumentException why) {
        return usage(String.valueOf(why.getMessage()), "choose another --chunk or --buffer, or another session");
    }

    public int exitCode() {
        return exitCode;
    }

    /** What was wrong; never null here. */
    public String what() {
        return String.valueOf(getMessage());
    }

    public String todo() {
        return todo;
    }
}
