package tracksoak.report.roster.web.server;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Which user of this computer is at the other end of a connection, from Linux's tables of connections. Browsers give a cookie to every
 * port of a computer, so also to a page that another of its users serves: whoever comes with it must be the one it was given to. Where
 * the system has no such tables nothing is known, and nobody is turned away. Any thread.
 */
final class PeerUser {

    private static final List<Path> TABLES = List.of(Path.of("/proc/net/tcp"), Path.of("/proc/net/tcp6"));
    /** The tables are read piece by piece while they change, so that a line may be missed. */
    private static final int LOOKS = 5;

    private static final int LOCAL = 1;
    private static final int REMOTE = 2;
    private static final int USER = 7;
    private static final int INODE = 9;

    private final Set<String> welcome;

    /** @param welcome numbers of the users who may come; empty for all */
    PeerUser(Set<String> welcome) {
        this.welcome = Set.copyOf(welcome);
    }

    /** The user who runs this process, and who had it run by root; everyone where the system does not tell. */
    static PeerUser own() {
        try {
            String own = String.valueOf(Files.getAttribute(Path.of("/proc/self"), "unix:uid"));
            String by = System.getenv("SUDO_UID");
            return new PeerUser(own.equals("0") && by != null ? Set.of(own, by) : Set.of(own));
        } catch (IOException | UnsupportedOperationException | IllegalArgumentException notLinux) {
            return new PeerUser(Set.of());
        }
    }

    /**
     * Whoever was welcome once is so for as long as the connection lasts.
     *
     * @throws Refusal where another user is at the other end, or nobody any more
     */
    void check(Exchange exchange) {
        if (!exchange.marked(PeerUser.class.getName())) {
            check(exchange.clientPort(), exchange.serverPort());
            exchange.mark(PeerUser.class.getName());
        }
    }

    /** @throws Refusal as above */
    void check(int clientPort, int serverPort) {
        for (int look = 0; look < LOOKS && !welcome.isEmpty(); look++) {
            String tables = tables();
            Peer peer = tables.isEmpty() ? Peer.WELCOME : peer(tables, clientPort, serverPort);
            if (peer == Peer.WELCOME) {
                return;
            }
            if (peer == Peer.STRANGER) {
                throw new Refusal(
                        403,
                        "this bench is another user's",
                        "",
                        "only the user of this computer who started it can use it",
                        "start one of your own: tracksoak bench");
            }
        }
        if (!welcome.isEmpty()) {
            // what RFC 9110, 15.5.9, has for connections that are used no more
            throw new Refusal(
                    408,
                    "nobody is at the other end",
                    "",
                    "the system does not say whose connection this is",
                    "load the page again");
        }
    }

    /** Whether another user is at the other end, as far as one look tells. */
    boolean isStranger(int clientPort, int serverPort) {
        return !welcome.isEmpty() && peer(tables(), clientPort, serverPort) == Peer.STRANGER;
    }

    private static String tables() {
        StringBuilder tables = new StringBuilder();
        for (Path table : TABLES) {
            try {
                tables.append(Files.readString(table, StandardCharsets.US_ASCII));
            } catch (IOException none) {
                // a system without the newer protocol has no table of it
            }
        }
        return tables.toString();
    }

    /** Who has the other end. */
    enum Peer {
        WELCOME,
        STRANGER,
        /** The socket is not in the tables, or its program has closed it. */
        NOBODY
    }

    /** Who has the socket between these ports: a line of the tables holds its two ends, its user, and its file while it is open. */
    Peer peer(String tables, int clientPort, int serverPort) {
        String from = port(clientPort);
        String to = port(serverPort);
        for (String line : tables.split("\n", -1)) {
            String[] fields = line.strip().split("\\s+", -1);
            if (fields.length > INODE && fields[LOCAL].endsWith(from) && fields[REMOTE].endsWith(to)) {
                if (fields[INODE].equals("0")) {
                    return Peer.NOBODY;
                }
                return welcome.contains(fields[USER]) ? Peer.WELCOME : Peer.STRANGER;
            }
        }
        return Peer.NOBODY;
    }

    private static String port(int port) {
        return String.format(Locale.ROOT, ":%04X", port);
    }
}
