package tracksoak.report.roster.store;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import java.util.function.Supplier;
import javax.sql.DataSource;
import tracksoak.profiles.base.SystemClocks;

/**
 * A few open connections, kept for the next who asks; one that does not answer any more is replaced, so that a database
 * may be restarted meanwhile. What was read of a write-protected file while somebody changed it is read again. Any thread.
 */
final class Connections implements AutoCloseable {

    private static final int CHECK_S = 5;
    private static final int PATIENCE_S = 30;
    private static final int MOST_TRIES = 20;
    private static final long PAUSE_NS = 50_000_000L;

    private final Dialect dialect;
    private final Supplier<DataSource> source;
    private final Supplier<WriteProtected.State> state;
    private final Semaphore free;
    private final ConcurrentLinkedDeque<Idle> idle = new ConcurrentLinkedDeque<>();
    private volatile boolean closed;

    /** @param since how the file lay there when it was opened */
    private record Idle(Connection connection, WriteProtected.State since) {}

    Connections(Dialect dialect, DataSource source) {
        this(dialect, () -> source, () -> WriteProtected.State.LIVE);
    }

    /**
     * Connections to a file whose folder may be, or become, write-protected.
     *
     * @param source asked anew for each connection
     * @param state how the file lies there now
     */
    Connections(Dialect dialect, Supplier<DataSource> source, Supplier<WriteProtected.State> state) {
        this.dialect = dialect;
        this.source = source;
        this.state = state;
        this.free = new Semaphore(dialect.mostConnections());
    }

    /** Works on one connection, each statement for itself. */
    <T> T with(Function<Handle, T> work) {
        return steadily(connection -> work.apply(new Handle(connection)));
    }

    /**
     * Works on one connection, all or nothing.
     *
     * @param isolation as in {@link Connection}; {@link Connection#TRANSACTION_NONE} for the database's own
     */
    <T> T inTransaction(int isolation, Function<Handle, T> work) {
        return steadily(connection -> inTransaction(connection, isolation, work));
    }

    private interface Work<T> {
        T on(Connection connection) throws SQLException;
    }

    /** Works on one connection; anew where the file was changed meanwhile by somebody whom this connection does not see. */
    private <T> T steadily(Work<T> work) {
        for (int i = 0; i < MOST_TRIES; i++) {
            WriteProtected.State before = state.get();
            try {
                T made = on(before, work);
                if (still(before)) {
                    return made;
                }
            } catch (SQLException e) {
                if (still(before)) {
                    throw new Handle.Failed(e);
                }
            } catch (RuntimeException e) {
                if (still(before)) {
                    throw e;
                }
            }
            SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + PAUSE_NS);
        }
        throw new Handle.Failed(new SQLException("the file is changed again and again", "55P03"));
    }

    private boolean still(WriteProtected.State before) {
        return before.equals(WriteProtected.State.LIVE) || before.same(state.get());
    }

    private <T> T on(WriteProtected.State state, Work<T> work) throws SQLException {
        Connection connection = open(state);
        try {
            return work.on(connection);
        } finally {
            giveBack(connection, state);
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

    private Connection open(WriteProtected.State now) throws SQLException {
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
            Connection connection = idleOne(now);
            opened = true;
            return connection;
        } finally {
            if (!opened) {
                free.release();
            }
        }
    }

    private Connection idleOne(WriteProtected.State now) throws SQLException {
        for (Idle one = idle.pollFirst(); one != null; one = idle.pollFirst()) {
            Connection connection = one.connection;
            if (one.since.same(now) && (dialect == Dialect.SQLITE || connection.isValid(CHECK_S))) {
                return connection;
            }
            connection.close();
        }
        return source.get().getConnection();
    }

    private void giveBack(Connection connection, WriteProtected.State since) throws SQLException {
        try {
            if (closed || !since.settled() || connection.isClosed()) {
                connection.close();
            } else {
                idle.addFirst(new Idle(connection, since));
            }
        } finally {
            free.release();
        }
    }

    @Override
    public void close() {
        closed = true;
        for (Idle one = idle.pollFirst(); one != null; one = idle.pollFirst()) {
            closeQuietly(one.connection);
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
