package tracksoak.report.roster.web.server;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.eclipse.jetty.io.Connection;
import org.eclipse.jetty.io.ssl.SslConnection;

/** Closes connections of a client that has too many open, so that no single one takes all there are. Any thread. */
final class ClientConnections implements Connection.Listener {

    private final int mostOfOne;
    private final Map<String, Integer> open = new ConcurrentHashMap<>();
    private final Map<Connection, String> counted = new ConcurrentHashMap<>();

    ClientConnections(int mostOfOne) {
        this.mostOfOne = mostOfOne;
    }

    @Override
    public void onOpened(Connection connection) {
        if (connection instanceof SslConnection) {
            return; // the one inside it is counted
        }
        String client = ClientAddress.of(connection.getEndPoint().getRemoteSocketAddress());
        counted.put(connection, client);
        int now = open.merge(client, 1, Integer::sum);
        if (now > mostOfOne) {
            connection.getEndPoint().close();
        }
        if (!connection.getEndPoint().isOpen()) {
            onClosed(connection);
        }
    }

    @Override
    public void onClosed(Connection connection) {
        String client = counted.remove(connection);
        if (client != null) {
            open.computeIfPresent(client, (key, number) -> number <= 1 ? null : number - 1);
        }
    }
}
