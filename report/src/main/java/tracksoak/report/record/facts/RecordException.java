package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;

/** A run record that cannot be written or read. The message says what, where, why and what to do; no trace is needed. */
public final class RecordException extends RuntimeException {

    private final String what;
    private final String where;
    private final String why;
    private final String todo;

    /**
     * Makes the message {@code what: where: why; todo}.
     *
     * @param what what cannot be done
     * @param where file, place in it or field, may be empty
     * @param why which value and why not
     * @param todo what to do about it
     */
    public RecordException(String what, String where, String why, String todo) {
        this(what, where, why, todo, null);
    }

    public RecordException(String what, String where, String why, String todo, @Nullable Throwable cause) {
        super(what + ": " + (where.isEmpty() ? "" : where + ": ") + why + "; " + todo, cause);
        this.what = what;
        this.where = where;
        this.why = why;
        this.todo = todo;
    }

    /** What cannot be done. */
    public String what() {
        return what;
    }

    /** File, place in it or field; may be empty. */
    public String where() {
        return where;
    }

    /** Which value and why not. */
    public String why() {
        return why;
    }

    /** What to do about it. */
    public String todo() {
        return todo;
    }

    /** The same trouble, with the file named. */
    public RecordException in(String file) {
        return new RecordException(what, where.isEmpty() ? file : file + ", " + where, why, todo, this);
    }
}
