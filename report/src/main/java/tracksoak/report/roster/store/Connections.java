package tracksoak.report.roster.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.jdbi.v3.core.ConnectionFactory;

/**
 * A few open connections, kept for the next who asks; one that does not answer any more is replaced, so that a database
 * may be restarted meanwhile. Any thread.
 */
final class Connections implements ConnectionFactory, AutoCloseable {

    private static final int CHECK_S = 5;
    private static final int PATIENCE_S = 30;

    private final Dialect dialect;
    private final DataSource source;
    private final Semaphore free;
    private final ConcurrentLinkedDeque<Connection> idle = new ConcurrentLinkedDeque<>();
    private volatile boolean closed;

    Connections(Dialect dialect, DataSource source) {
        this.dialect = dialect;
        this.source = source;
        this.free = new Semaphore(dialect.mostConnections());
    }

    @Override
    public Connection openConnection() throws SQLException {
        try {
            if (!free.tryAcquire(PATIENCE_S, TimeUnit.SECONDS)) {
                throw new SQLException("all " + dialect.mostConnections() + " connections are in use", "08004");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new SQLException("interrupted while waiting for a connection", "08004", e);
        }
        boolean opened = false;
        try {
            Connection connection = idleOne();
            opened = true;
            return connection;
        } finally {
            if (!opened) {
                free.release();
            }
        }
    }

    private Connection idleOne() throws SQLException {
        for (Connection connection = idle.pollFirst(); connection != null; connection = idle.pollFirst()) {
            if (dialect == Dialect.SQLITE || connection.isValid(CHECK_S)) {
                return connection;
            }
            connection.close();
        }
        return source.getConnection();
    }

    @Override
    public void closeConnection(Connection connection) throws SQLException {
        try {
            if (closed || connection.isClosed()) {
                connection.close();
            } else {
                idle.addFirst(connection);
            }
        } finally {
            free.release();
        }
    }

    @Override
    public void close() {
        closed = true;
        for (Connection connection = idle.pollFirst(); connection != null; connection = idle.pollFirst()) {
            closeQuietly(connection);
        }
    }

    /** The others are closed all the same; nothing that was acknowledged hangs on one. */
    private static boolean closeQuietly(Connection connection) {
        try {
            connection.close();
            return true;
        } catch (SQLException e) {
            return false;
        }
    }
}
