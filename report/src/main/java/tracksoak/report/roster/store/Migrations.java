package tracksoak.report.roster.store;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import tracksoak.profiles.base.Problem;

/**
 * Brings a database to today's schema, forward only. Flyway costs a good part of a second to load, so it is only asked where the
 * database is not there yet.
 */
final class Migrations {

    /** Number of the newest script in {@code tracksoak/roster/migration}. */
    static final int NEWEST = 2;

    private static final String HISTORY = "roster_schema_history";

    private Migrations() {}

    static void run(RosterPlace place, Dialect dialect, DataSource source) throws SQLException {
        int version;
        try (Connection connection = source.getConnection()) {
            version = version(connection);
        }
        if (version > NEWEST) {
            throw new Problem(
                    Problem.Kind.NEWER,
                    "the roster cannot be opened",
                    "",
                    place + " has schema " + version + ", and this program knows " + NEWEST + " at most",
                    "use the newer Tracksoak that wrote it; nothing was changed");
        }
        if (version < NEWEST) {
            migrate(dialect, source);
        }
    }

    private static void migrate(Dialect dialect, DataSource source) throws SQLException {
        try {
            Flyway.configure(Migrations.class.getClassLoader())
                    .dataSource(source)
                    .locations("classpath:tracksoak/roster/migration")
                    .table(HISTORY)
                    .placeholders(dialect.placeholders())
                    .loggers("slf4j")
                    .load()
                    .migrate();
        } catch (FlywayException e) {
            // another process on its first use may have been quicker
            try (Connection connection = source.getConnection()) {
                if (version(connection) != NEWEST) {
                    throw e;
                }
            }
        }
    }

    /** Schema of the database: 0 where there is none yet. */
    private static int version(Connection connection) throws SQLException {
        try (ResultSet tables = connection.getMetaData().getTables(null, null, HISTORY, null)) {
            if (!tables.next()) {
                return 0;
            }
        }
        try (Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(
                        "SELECT version FROM " + HISTORY + " WHERE success AND version IS NOT NULL")) {
            int newest = 0;
            while (rows.next()) {
                newest = Math.max(newest, number(rows.getString(1)));
            }
            return newest;
        }
    }

    private static int number(String version) {
        return version.matches("[0-9]{1,6}") ? Integer.parseInt(version) : Integer.MAX_VALUE;
    }
}
