package tracksoak.report.roster;

import org.jspecify.annotations.Nullable;

/** Something about a roster that cannot be done. The message says what, which value, why and what to do; no trace is needed. */
public final class RosterException extends RuntimeException {

    /** Kinds of trouble, for exit codes and HTTP answers. */
    public enum Kind {
        /** What was asked is wrong: a tag that cannot be one, a drive nobody knows. */
        ASKED_WRONG,
        /** Nothing of that name is in the roster. */
        NOT_FOUND,
        /** What came from outside cannot be taken: damaged, too large, a signature that does not hold. */
        REFUSED,
        /** Somebody else holds the store; try again. */
        BUSY,
        /** The store's file is damaged. */
        CORRUPT,
        /** No room is left for the store. */
        FULL,
        /** The store was written by a newer program. */
        NEWER,
        /** The store cannot be reached, or the other side of a sync cannot. */
        UNREACHABLE
    }

    private final Kind kind;

    /**
     * Makes the message {@code what: why; todo}.
     *
     * @param what what cannot be done, with the value
     * @param why why not
     * @param todo what to do about it
     */
    public RosterException(Kind kind, String what, String why, String todo) {
        this(kind, what, why, todo, null);
    }

    /** The same, with what lies behind it. */
    public RosterException(Kind kind, String what, String why, String todo, @Nullable Throwable cause) {
        super(what + ": " + why + "; " + todo, cause);
        this.kind = kind;
    }

    /** What kind of trouble. */
    public Kind kind() {
        return kind;
    }
}
