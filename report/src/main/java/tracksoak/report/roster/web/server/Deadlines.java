package tracksoak.report.roster.web.server;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.eclipse.jetty.io.Connection;
import org.eclipse.jetty.io.ssl.SslConnection;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.util.thread.Scheduler;

/**
 * Cuts connections that take too long as a whole. An idle timeout alone is no help against a client that sends one byte
 * just before it runs out each time. Any thread.
 */
final class Deadlines implements Connection.Listener {

    private final Scheduler scheduler;
    private final Limits limits;
    private final Map<Connection, Scheduler.Task> running = new ConcurrentHashMap<>();

    Deadlines(Scheduler scheduler, Limits limits) {
        this.scheduler = scheduler;
        this.limits = limits;
    }

    @Override
    public void onOpened(Connection connection) {
        if (!(connection instanceof SslConnection)) {
            set(connection, "head", limits.headS());
        }
    }

    @Override
    public void onClosed(Connection connection) {
        Scheduler.Task task = running.remove(connection);
        if (task != null) {
            task.cancel();
        }
    }

    /** The head has come; the body is next. */
    void body(Request request) {
        set(request.getConnectionMetaData().getConnection(), "body", limits.bodyS());
        Request.addCompletionListener(
                request, failure -> set(request.getConnectionMetaData().getConnection(), "next head", limits.headS()));
    }

    /** The body has come; the answer is next. */
    void answer(Request request) {
        set(request.getConnectionMetaData().getConnection(), "answer", limits.answerS());
    }

    /** The answer goes on for as long as the client stays. */
    void none(Request request) {
        onClosed(request.getConnectionMetaData().getConnection());
    }

    private void set(Connection connection, String what, int seconds) {
        Scheduler.Task next = scheduler.schedule(
                () -> connection
                        .getEndPoint()
                        .close(new TimeoutException("no whole " + what + " within " + seconds + " s")),
                seconds,
                TimeUnit.SECONDS);
        Scheduler.Task before = running.put(connection, next);
        if (before != null) {
            before.cancel();
        }
        if (!connection.getEndPoint().isOpen()) {
            onClosed(connection);
        }
    }
}
