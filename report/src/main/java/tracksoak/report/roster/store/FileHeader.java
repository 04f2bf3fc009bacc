package tracksoak.report.roster.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteDataSource;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;

/** Tells a roster's file from a file of another kind, before anything touches it. Stateless. */
final class FileHeader {

    /** The first 16 bytes of every SQLite database: "The Database Header" in SQLite's description of its file format. */
    static final byte[] SQLITE = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

    private FileHeader() {}

    /**
     * Refuses what is no ordinary file, a file that does not begin as a database, and the database of another program. One that bears the roster's own usual name is
     * taken for a roster whose beginning is destroyed; one that is empty, not there, or cannot be read is left to the database, which says it
     * in its own words.
     *
     * @throws Problem of kind REFUSED
     */
    static void check(Path file) {
        if (Files.exists(file) && !Files.isRegularFile(file)) {
            boolean folder = Files.isDirectory(file);
            throw Kind.REFUSED.problem(
                    "the roster cannot be used",
                    Inert.whole(file + (folder ? " is a folder" : " is no ordinary file")),
                    folder
                            ? "name a file in it, such as "
                                    + Inert.whole(file.resolve(RosterPlace.FILE).toString())
                            : "name a file");
        }
        if (beginsAsDatabase(file)) {
            if (holdsOtherTables(file)) {
                throw otherTables(file, null);
            }
            return;
        }
        if (file.endsWith(RosterPlace.FILE)) {
            return;
        }
        throw Kind.REFUSED.problem(
                "the roster cannot be used",
                Inert.whole(file
                        + " is no roster: it does not begin as an SQLite database does; nothing of it was touched"),
                "see whether its name is right; a roster whose beginning is destroyed is rescued under the name "
                        + RosterPlace.FILE + ", in a folder of its own");
    }

    /** What is said of a database, whose name that is, that holds other tables and none of a roster's. */
    static Problem otherTables(Object name, @Nullable Exception cause) {
        return Kind.REFUSED.problem(
                "the roster cannot be used",
                Inert.whole(name + " holds tables of another program; nothing of it was touched"),
                "see whether its name is right; a roster needs a file or a database of its own",
                cause);
    }

    /** Looked at as if nobody could ever change it ("immutable"), for else the looking alone may leave files beside it. */
    private static boolean holdsOtherTables(Path file) {
        SQLiteDataSource source = new SQLiteDataSource();
        source.setUrl(WriteProtected.address(file));
        try (Connection connection = source.getConnection();
                Statement statement = connection.createStatement();
                ResultSet tables = statement.executeQuery("SELECT count(*), count(CASE WHEN name = '"
                        + Migrations.HISTORY + "' THEN 1 END) FROM sqlite_schema WHERE type = 'table'")) {
            return tables.next() && tables.getInt(1) > 0 && tables.getInt(2) == 0;
        } catch (SQLException damaged) {
            return false;
        }
    }

    private static boolean beginsAsDatabase(Path file) {
        if (!Files.isRegularFile(file)) {
            return true;
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] first = in.readNBytes(SQLITE.length);
            return first.length == 0 || Arrays.equals(first, SQLITE);
        } catch (IOException unread) {
            return true;
        }
    }
}
