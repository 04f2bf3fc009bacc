package tracksoak.report.roster;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.extension.AfterAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.SqlStore;

/**
 * A real PostgreSQL for the tests of one class ({@code @RegisterExtension}) or of one block; started when it is first asked for. Where it cannot
 * start, they are skipped, but never when CI=true. One thread.
 */
public final class Postgres implements AfterAllCallback, AutoCloseable {

    private static final AtomicInteger DATABASES = new AtomicInteger();

    private @Nullable EmbeddedPostgres server;
    private @Nullable RosterPlace young;

    /**
     * One whose data stay in a folder when it is closed, so that it can be started on them again.
     *
     * @param port to listen on, 0 for any free one
     */
    public static EmbeddedPostgres startOn(Path data, int port) {
        try {
            EmbeddedPostgres.Builder builder =
                    EmbeddedPostgres.builder().setDataDirectory(data).setCleanDataDirectory(false);
            return (port == 0 ? builder : builder.setPort(port)).start();
        } catch (IOException | RuntimeException e) {
            throw cannotStart(e);
        }
    }

    /** The server, or the test is skipped. */
    public EmbeddedPostgres server() {
        EmbeddedPostgres running = server;
        if (running != null) {
            return running;
        }
        try {
            running = EmbeddedPostgres.builder().start();
            server = running;
            return running;
        } catch (IOException | RuntimeException e) {
            throw cannotStart(e);
        }
    }

    private static IllegalStateException cannotStart(Exception why) {
        Assumptions.assumeTrue("true".equals(System.getenv("CI")), "PostgreSQL cannot start here: " + why.getMessage());
        return new IllegalStateException("PostgreSQL must start where CI=true", why);
    }

    /** A new, empty database. */
    public RosterPlace place() {
        return database("");
    }

    /** A roster just made, in which nothing is yet: a copy, for to make each anew takes longer than most tests of it. */
    public RosterPlace young() {
        if (young == null) {
            young = place();
            SqlStore.open(young).close();
        }
        return database(" TEMPLATE " + String.valueOf(young.url()).replaceFirst(".*/(\\w+).*", "$1"));
    }

    private RosterPlace database(String made) {
        String name = "roster" + DATABASES.incrementAndGet();
        try (Connection connection = server().getPostgresDatabase().getConnection();
                Statement statement = connection.createStatement()) {
            statement.execute("CREATE DATABASE " + name + made);
        } catch (SQLException e) {
            throw new IllegalStateException("a database cannot be made", e);
        }
        return RosterPlace.postgres(server().getJdbcUrl("postgres", name), "postgres", "postgres");
    }

    @Override
    public void afterAll(ExtensionContext context) throws IOException {
        close();
    }

    @Override
    public void close() throws IOException {
        if (server != null) {
            server.close();
        }
    }
}
