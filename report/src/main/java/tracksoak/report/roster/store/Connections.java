package tracksoak.report.roster.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import javax.sql.DataSource;

/**
 * A few open connections, kept for the next who asks; one that does not answer any more is replaced, so that a database
 * may be restarted meanwhile. Any thread.
 */
final class Connections implements AutoCloseable {

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

    /** Works on one connection, each statement for itself. */
    <T> T with(Function<Handle, T> work) {
        try {
            Connection connection = open();
            try {
                return work.apply(new Handle(connection));
            } finally {
                giveBack(connection);
            }
        } catch (SQLException e) {
            throw new Handle.Failed(e);
        }
    }

    /**
     * Works on one connection, all or nothing.
     *
     * @param isolation as in {@link Connection}; {@link Connection#TRANSACTION_NONE} for the database's own
     */
    <T> T inTransaction(int isolation, Function<Handle, T> work) {
        try {
            Connection connection = open();
            try {
                return inTransaction(connection, isolation, work);
            } finally {
                giveBack(connection);
            }
        } catch (SQLException e) {
            throw new Handle.Failed(e);
        }
    }

    private static <T> T inTransaction(Connection connection, int isolation, Function<Handle, T> work)
            throws SQLException {
        int usual = connection.getTransactionIsolation();
        if (isolation != Connection.TRANSACTION_NONE) {
            connection.setTransactionIsolation(isolation);
        }
        connection.setAutoCommit(false);
        boolean done = false;
        try {
            T made = work.apply(new Handle(connection));
            connection.commit();
            done = true;
            return made;
        } finally {
            if (!done && !rolledBack(connection)) {
                // what is half done on it must never be gone on with
                closeQuietly(connection);
            } else {
                connection.setAutoCommit(true);
                if (isolation != Connection.TRANSACTION_NONE) {
                    connection.setTransactionIsolation(usual);
                }
            }
        }
    }

    private static boolean rolledBack(Connection connection) {
        try {
            connection.rollback();
            return true;
        } catch (SQLException e) {
            return false;
        }
    }

    private Connection open() throws SQLException {
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

    private void giveBack(Connection connection) throws SQLException {
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
