package tracksoak.report.roster.store;

import java.nio.file.Path;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;

/** Turns what a database says into what people are told. */
final class StoreProblems {

    private static final String CANNOT = "the roster cannot be used";

    private StoreProblems() {}

    static Problem of(Throwable thrown, RosterPlace place) {
        for (Throwable cause = thrown; cause != null; cause = cause.getCause()) {
            if (cause instanceof Problem known) {
                return known;
            }
            if (cause instanceof SQLiteException lite) {
                return sqlite(lite.getResultCode(), place, lite);
            }
            if (cause instanceof SQLException sql) {
                return postgres(String.valueOf(sql.getSQLState()), place, sql);
            }
        }
        return new Problem(Kind.UNREACHABLE, CANNOT, "", place + ": " + brief(thrown), "see the message", thrown);
    }

    private static Problem sqlite(SQLiteErrorCode code, RosterPlace place, SQLException e) {
        int kind = code.code & 0xff;
        Path file = place.file();
        if ((kind == 8 || kind == 14) && file != null && WriteProtected.is(file)) { // SQLITE_READONLY, SQLITE_CANTOPEN
            return new Problem(
                    Kind.UNREACHABLE,
                    CANNOT,
                    "",
                    place + " cannot be written, nor what lies beside it",
                    WriteProtected.todo(file),
                    e);
        }
        if (code == SQLiteErrorCode.SQLITE_IOERR_SHMSIZE) { // what all who read share; too large for the disk
            kind = 13;
        }
        return switch (kind) {
            case 5, 6 -> // SQLITE_BUSY, SQLITE_LOCKED
                new Problem(
                        Kind.BUSY,
                        CANNOT,
                        "",
                        place + " is locked by another program",
                        "end that one, or try again",
                        e);
            case 11, 26 -> // SQLITE_CORRUPT, SQLITE_NOTADB
                new Problem(
                        Kind.CORRUPT,
                        CANNOT,
                        "",
                        place + " is damaged",
                        "make it anew with roster rescue: the damaged file is kept, and what can be read of it and of"
                                + " the run records is entered again",
                        e);
            case 13 -> // SQLITE_FULL
                new Problem(
                        Kind.FULL,
                        CANNOT,
                        "",
                        "no room is left for " + place,
                        "make room and try again; what was acknowledged before is safe",
                        e);
            case 8 -> // SQLITE_READONLY
                new Problem(Kind.UNREACHABLE, CANNOT, "", place + " may not be written", "check who owns it", e);
            default ->
                new Problem(Kind.UNREACHABLE, CANNOT, "", place + ": " + brief(e), "check the file and its disk", e);
        };
    }

    private static Problem postgres(String state, RosterPlace place, @Nullable SQLException e) {
        if (state.equals("53100")) {
            return new Problem(Kind.FULL, CANNOT, "", "no room is left at " + place, "make room there", e);
        }
        if (state.startsWith("40") || state.equals("55P03")) {
            return new Problem(Kind.BUSY, CANNOT, "", place + " is busy", "try again", e);
        }
        if (state.startsWith("28")) {
            return new Problem(Kind.UNREACHABLE, CANNOT, "", place + " refuses user or password", "check both", e);
        }
        return new Problem(
                Kind.UNREACHABLE,
                CANNOT,
                "",
                place + ": " + brief(e),
                "check that the database runs and can be reached, and try again",
                e);
    }

    private static String brief(@Nullable Throwable thrown) {
        String message = thrown == null || thrown.getMessage() == null ? "no reason given" : thrown.getMessage();
        return tracksoak.profiles.base.Inert.text(message.lines().findFirst().orElse(message));
    }
}
