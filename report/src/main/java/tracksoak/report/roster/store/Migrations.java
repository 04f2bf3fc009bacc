package tracksoak.report.roster.store;

import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.CoreErrorCode;
import org.flywaydb.core.api.FlywayException;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.profiles.base.SystemClocks;

/**
 * Brings a database to today's schema, forward only. Flyway costs a good part of a second to load, so it is only asked where the
 * database is not there yet.
 */
final class Migrations {

    /** Number of the newest script in {@code tracksoak/roster/migration}. */
    static final int NEWEST = 2;

    /** Any other program that makes the same is done by then. */
    private static final long PATIENCE_NS = 15_000_000_000L;

    private static final long PAUSE_NS = 50_000_000L;
    static final String HISTORY = "roster_schema_history";

    private Migrations() {}

    /** @param connections one of which is used, and kept for those who come after */
    static void run(RosterPlace place, Dialect dialect, DataSource source, Connections connections) {
        int version = connections.with(Migrations::version);
        if (version > NEWEST) {
            throw Kind.NEWER.problem(
                    "the roster cannot be opened",
                    place + " has schema " + version + ", and this program knows " + NEWEST + " at most",
                    "use the newer Tracksoak that wrote it; nothing was changed");
        }
        if (version < NEWEST) {
            migrate(place, dialect, source, connections);
        }
    }

    private static void migrate(RosterPlace place, Dialect dialect, DataSource source, Connections connections) {
        Flyway flyway = Flyway.configure(Migrations.class.getClassLoader())
                .dataSource(source)
                .locations("classpath:tracksoak/roster/migration")
                .table(HISTORY)
                .placeholders(dialect.placeholders())
                .loggers("slf4j")
                .load();
        long untilNs = SystemClocks.NANO.nanoTime() + PATIENCE_NS;
        while (true) {
            try {
                flyway.migrate();
                return;
            } catch (FlywayException e) {
                // another process on its first use may have been quicker, or be at it
                if (connections.with(Migrations::version) == NEWEST) {
                    return;
                }
                long now = SystemClocks.NANO.nanoTime();
                if (now > untilNs || StoreProblems.of(e, place).kind() != Kind.BUSY) {
                    throw inWords(place, e);
                }
                SystemClocks.PARK.waitUntil(now + PAUSE_NS);
            }
        }
    }

    private static RuntimeException inWords(RosterPlace place, FlywayException e) {
        if (e.getErrorCode() != CoreErrorCode.NON_EMPTY_SCHEMA_WITHOUT_SCHEMA_HISTORY_TABLE) {
            return e;
        }
        return FileHeader.otherTables(place, e);
    }

    /** Schema of the database: 0 where there is none yet. To ask which tables there are takes longer than to look into one. */
    private static int version(Handle handle) {
        try {
            return newest(handle);
        } catch (Handle.Failed e) {
            // what was not there a moment ago another process may have made since
            return handle.hasTable(HISTORY) ? newest(handle) : 0;
        }
    }

    private static int newest(Handle handle) {
        return handle.sql("SELECT version FROM " + HISTORY + " WHERE success AND version IS NOT NULL").texts().stream()
                .mapToInt(Migrations::number)
                .max()
                .orElse(0);
    }

    private static int number(String version) {
        return version.matches("[0-9]{1,6}") ? Integer.parseInt(version) : Integer.MAX_VALUE;
    }
}
