package tracksoak.report.roster.web.server;

import java.net.InetSocketAddress;
import java.net.SocketAddress;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.eclipse.jetty.io.Connection;
import org.eclipse.jetty.io.ssl.SslConnection;

/**
 * Closes connections of a client that has too many open, so that no single one takes all there are. Other users of this computer, where they
 * are turned away anyway, are one client and have few. Any thread.
 */
final class ClientConnections implements Connection.Listener {

    private static final String STRANGERS = "other users";
    private static final int MOST_OF_STRANGERS = 8;

    private final int mostOfOne;
    private final PeerUser peers;
    private final Map<String, Integer> open = new ConcurrentHashMap<>();
    private final Map<Connection, String> counted = new ConcurrentHashMap<>();

    ClientConnections(int mostOfOne, PeerUser peers) {
        this.mostOfOne = mostOfOne;
        this.peers = peers;
    }

    @Override
    public void onOpened(Connection connection) {
        if (connection instanceof SslConnection) {
            return; // the one inside it is counted
        }
        boolean stranger = peers.isStranger(
                port(connection.getEndPoint().getRemoteSocketAddress()),
                port(connection.getEndPoint().getLocalSocketAddress()));
        String client =
                stranger ? STRANGERS : ClientAddress.of(connection.getEndPoint().getRemoteSocketAddress());
        counted.put(connection, client);
        int now = open.merge(client, 1, Integer::sum);
        if (now > (stranger ? MOST_OF_STRANGERS : mostOfOne)) {
            connection.getEndPoint().close();
        }
        if (!connection.getEndPoint().isOpen()) {
            onClosed(connection);
        }
    }

    private static int port(SocketAddress address) {
        return address instanceof InetSocketAddress known ? known.getPort() : 0;
    }

    @Override
    public void onClosed(Connection connection) {
        String client = counted.remove(connection);
        if (client != null) {
            open.computeIfPresent(client, (key, number) -> number <= 1 ? null : number - 1);
        }
    }
}
