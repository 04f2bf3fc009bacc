package tracksoak.report.roster.store;

import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;

/**
 * Where a roster is kept: in an SQLite file, or in a PostgreSQL database. Immutable.
 *
 * @param file the SQLite file, null for PostgreSQL
 * @param url JDBC address of the PostgreSQL database, null for SQLite
 * @param user its user, null where the address says it
 * @param password its password, null where the address says it; never in {@link #toString}
 */
public record RosterPlace(
        @Nullable Path file,
        @Nullable String url,
        @Nullable String user,
        @Nullable String password) {

    /** Name of the file in the user's data folder. */
    public static final String FILE = "roster.db";

    /** An SQLite file; made, with its folder, on first use. */
    public static RosterPlace sqlite(Path file) {
        return new RosterPlace(file, null, null, null);
    }

    /**
     * A PostgreSQL database, which must be there.
     *
     * @param url {@code jdbc:postgresql://HOST/DATABASE} or {@code postgresql://HOST/DATABASE}
     * @throws Problem if the address is another
     */
    public static RosterPlace postgres(String url, @Nullable String user, @Nullable String password) {
        String jdbc = url.startsWith("postgresql://") || url.startsWith("postgres://")
                ? "jdbc:postgresql://" + url.substring(url.indexOf("//") + 2)
                : url;
        if (!jdbc.startsWith("jdbc:postgresql:")) {
            throw Kind.ASKED_WRONG.problem(
                    "the roster cannot be opened",
                    "the address is none of PostgreSQL",
                    "give postgresql://HOST/DATABASE");
        }
        return new RosterPlace(null, jdbc, user, password);
    }

    /** Whether there is something to open, as far as that shows without opening it: a database at its address is taken to be there. */
    public boolean isThere() {
        return file == null || Files.exists(file);
    }

    /** As people may see it: without user and password. */
    @Override
    public String toString() {
        if (file != null) {
            return file.toString();
        }
        String shown = String.valueOf(url);
        int query = shown.indexOf('?');
        return (query < 0 ? shown : shown.substring(0, query))
                .replaceAll("//[^/@]*@", "//")
                .replaceFirst("^jdbc:", "");
    }
}
