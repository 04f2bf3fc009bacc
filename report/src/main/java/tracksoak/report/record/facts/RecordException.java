package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Problem;

/**
 * A record, or a key that signs records, that cannot be written or read. Told apart from other problems, as whoever reads
 * many records passes over the damaged ones.
 */
public final class RecordException extends Problem {

    private static final long serialVersionUID = 1L;

    /**
     * @param what what cannot be done
     * @param which file, place in it or field, may be empty
     * @param why which value and why not
     * @param todo what to do about it
     */
    public RecordException(String what, String which, String why, String todo) {
        this(what, which, why, todo, null);
    }

    /** The same, with what lies behind it. */
    public RecordException(String what, String which, String why, String todo, @Nullable Throwable cause) {
        super(Kind.CORRUPT, what, which, why, todo, cause);
    }

    /** The same trouble, with the file named. */
    public RecordException in(String file) {
        return new RecordException(what(), which().isEmpty() ? file : file + ", " + which(), why(), todo(), this);
    }
}
