package tracksoak.profiles.base;

import org.jspecify.annotations.Nullable;

/**
 * The one error that people see: what cannot be done, which value it is about, why, and what to do. The parts are kept
 * apart, so nobody has to cut a sentence open again; {@link #getMessage()} is all of them in one line. Texts from outside
 * must have been made {@link Inert} by whoever puts them in.
 */
public class Problem extends RuntimeException {

    private static final long serialVersionUID = 1L;

    /** Kinds, for exit codes and HTTP answers. */
    public enum Kind {
        /** What was asked is wrong: a command line, a request, a value. */
        ASKED_WRONG,
        /** Nothing of that name is there. */
        NOT_FOUND,
        /** What came from outside cannot be taken: damaged, too large, a signature that does not hold. */
        REFUSED,
        /** It could not be done: a drive that is gone, no permission, something inside failed. */
        CANNOT,
        /** Somebody else holds it; try again. */
        BUSY,
        /** A file of ours is damaged. */
        CORRUPT,
        /** No room is left. */
        FULL,
        /** It was written by a newer program. */
        NEWER,
        /** It cannot be reached. */
        UNREACHABLE;

        /** Whether the one who asked can put it right by asking differently. */
        public boolean ofTheAsker() {
            return this == ASKED_WRONG || this == NOT_FOUND || this == REFUSED;
        }

        /** A problem of this kind that is about no value, file or part by itself. */
        public Problem problem(String what, String why, String todo) {
            return problem(what, why, todo, null);
        }

        /** The same, with what lies behind it. */
        public Problem problem(String what, String why, String todo, @Nullable Throwable cause) {
            return new Problem(this, what, "", why, todo, cause);
        }
    }

    private final Kind kind;
    private final String what;
    private final String which;
    private final String why;
    private final String todo;

    /**
     * @param kind for exit code or status
     * @param what what cannot be done
     * @param which the value, file or part it is about; may be empty
     * @param why why not; may be empty
     * @param todo what to do about it; may be empty
     */
    public Problem(Kind kind, String what, String which, String why, String todo) {
        this(kind, what, which, why, todo, null);
    }

    /** The same, with what lies behind it. */
    public Problem(Kind kind, String what, String which, String why, String todo, @Nullable Throwable cause) {
        super(cause);
        this.kind = kind;
        this.what = what;
        this.which = which;
        this.why = why;
        this.todo = todo;
    }

    /** Something that was asked wrong, told in one or more whole sentences. */
    public static Problem askedWrong(String what, String todo) {
        return Kind.ASKED_WRONG.problem(what, "", todo);
    }

    /** Something that could not be done, told in one or more whole sentences. */
    public static Problem cannot(String what, String todo) {
        return Kind.CANNOT.problem(what, "", todo);
    }

    /** Why something failed, in words and made {@link Inert}, after the file it is about. */
    public static String reason(Exception failed) {
        return Inert.whole(Failure.told(failed));
    }

    /** What kind of trouble. */
    public Kind kind() {
        return kind;
    }

    /** What cannot be done. */
    public String what() {
        return what;
    }

    /** The value, file or part it is about; may be empty. */
    public String which() {
        return which;
    }

    /** Why not; may be empty. */
    public String why() {
        return why;
    }

    /** What to do about it; may be empty. */
    public String todo() {
        return todo;
    }

    /** The same, said of {@code thing} where it named nothing: by whoever knows what the thing is called. */
    public Problem about(String thing) {
        return which.isEmpty() ? new Problem(kind, what, thing, why, todo, getCause()) : this;
    }

    /** What is wrong, without what to do: {@code what: which: why}. */
    public String told() {
        return what + part(which) + part(why);
    }

    /** All parts in one line: {@code what: which: why; todo}. */
    @Override
    public String getMessage() {
        return todo.isEmpty() ? told() : told() + "; " + todo;
    }

    private static String part(String part) {
        return part.isEmpty() ? "" : ": " + part;
    }
}
