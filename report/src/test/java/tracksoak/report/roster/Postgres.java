package tracksoak.report.roster;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Assumptions;
import tracksoak.report.roster.store.RosterPlace;

/** A real PostgreSQL for the tests of one class. Where it cannot start, they are skipped, but never when CI=true. */
public final class Postgres implements AutoCloseable {

    private static final AtomicInteger DATABASES = new AtomicInteger();

    private final @Nullable EmbeddedPostgres server;
    private final String whyNot;

    private Postgres(@Nullable EmbeddedPostgres server, String whyNot) {
        this.server = server;
        this.whyNot = whyNot;
    }

    /** Starts one. */
    public static Postgres start() {
        try {
            return new Postgres(EmbeddedPostgres.builder().start(), "");
        } catch (IOException | RuntimeException e) {
            if ("true".equals(System.getenv("CI"))) {
                throw new IllegalStateException("PostgreSQL must start where CI=true", e);
            }
            return new Postgres(null, String.valueOf(e.getMessage()));
        }
    }

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
            Assumptions.assumeTrue(
                    "true".equals(System.getenv("CI")), "PostgreSQL cannot start here: " + e.getMessage());
            throw new IllegalStateException("PostgreSQL must start where CI=true", e);
        }
    }

    /** The server, or the test is skipped. */
    public EmbeddedPostgres server() {
        Assumptions.assumeTrue(server != null, "PostgreSQL cannot start here: " + whyNot);
        return Objects.requireNonNull(server);
    }

    /** A new, empty database. */
    public RosterPlace place() {
        String name = "roster" + DATABASES.incrementAndGet();
        try (Connection connection = server().getPostgresDatabase().getConnection();
                Statement statement = connection.createStatement()) {
            statement.execute("CREATE DATABASE " + name);
        } catch (SQLException e) {
            throw new IllegalStateException("a database cannot be made", e);
        }
        return RosterPlace.postgres(server().getJdbcUrl("postgres", name), "postgres", "postgres");
    }

    @Override
    public void close() throws IOException {
        if (server != null) {
            server.close();
        }
    }
}
