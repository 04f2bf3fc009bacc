package tracksoak.report.roster.store;

import java.nio.file.Path;
import java.sql.SQLException;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;
import tracksoak.profiles.base.Inert;
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
        return Kind.UNREACHABLE.problem(CANNOT, place + ": " + brief(thrown), "see the message", thrown);
    }

    private static Problem sqlite(SQLiteErrorCode code, RosterPlace place, SQLException e) {
        int kind = code.code & 0xff;
        Path file = place.file();
        if ((kind == 8 || kind == 14) && file != null && WriteProtected.is(file)) { // SQLITE_READONLY, SQLITE_CANTOPEN
            return Kind.UNREACHABLE.problem(
                    CANNOT, place + " cannot be written, nor what lies beside it", WriteProtected.todo(file), e);
        }
        if (code == SQLiteErrorCode.SQLITE_IOERR_SHMSIZE) { // what all who read share; too large for the disk
            kind = 13;
        }
        return switch (kind) {
            case 5, 6 -> // SQLITE_BUSY, SQLITE_LOCKED
                Kind.BUSY.problem(CANNOT, place + " is locked by another program", "end that one, or try again", e);
            case 11, 26 -> // SQLITE_CORRUPT, SQLITE_NOTADB
                Kind.CORRUPT.problem(
                        CANNOT,
                        place + " is damaged",
                        "make it anew with roster rescue: the damaged file is kept, and what can be read of it and of"
                                + " the run records is entered again",
                        e);
            case 13 -> // SQLITE_FULL
                Kind.FULL.problem(
                        CANNOT,
                        "no room is left for " + place,
                        "make room and try again; what was acknowledged before is safe",
                        e);
            case 8 -> // SQLITE_READONLY
                Kind.UNREACHABLE.problem(CANNOT, place + " may not be written", "check who owns it", e);
            default -> Kind.UNREACHABLE.problem(CANNOT, place + ": " + brief(e), "check the file and its disk", e);
        };
    }

    /** @param state as in "PostgreSQL Error Codes", an appendix of its handbook */
    private static Problem postgres(String state, RosterPlace place, @Nullable SQLException e) {
        return switch (state) {
            case "53100" -> // disk_full
                Kind.FULL.problem(CANNOT, "no room is left at " + place, "make room there", e);
            case "55P03" -> busy(place, e); // lock_not_available
            case "25006" -> // read_only_sql_transaction
                Kind.UNREACHABLE.problem(
                        CANNOT,
                        place + " is for reading only",
                        "write to the database it is a copy of, or have whoever runs it let you write",
                        e);
            case "42501" -> // insufficient_privilege
                Kind.UNREACHABLE.problem(
                        CANNOT,
                        place + " does not let this user: " + brief(e),
                        "have whoever runs it give its tables to this user, or name another user",
                        e);
            case "3D000" -> // invalid_catalog_name
                Kind.UNREACHABLE.problem(
                        CANNOT,
                        "there is no database " + place,
                        "see whether its name is right; a new one must be made first, empty",
                        e);
            default -> {
                if (state.startsWith("40")) {
                    yield busy(place, e);
                }
                // the driver has no code of its own for a password it was not given
                if (state.startsWith("28") || (state.equals("08004") && place.password() == null)) {
                    yield Kind.UNREACHABLE.problem(
                            CANNOT,
                            place + " refuses user or password",
                            "check both: TRACKSOAK_ROSTER_USER and TRACKSOAK_ROSTER_PASSWORD",
                            e);
                }
                yield Kind.UNREACHABLE.problem(
                        CANNOT,
                        place + ": " + brief(e),
                        "check that the database runs and can be reached, and try again",
                        e);
            }
        };
    }

    private static Problem busy(RosterPlace place, @Nullable SQLException e) {
        return Kind.BUSY.problem(CANNOT, place + " is busy", "try again", e);
    }

    private static String brief(@Nullable Throwable thrown) {
        String message = thrown == null || thrown.getMessage() == null ? "no reason given" : thrown.getMessage();
        String line = message.lines().findFirst().orElse(message).strip();
        return Inert.text(line.endsWith(".") ? line.substring(0, line.length() - 1) : line);
    }
}
