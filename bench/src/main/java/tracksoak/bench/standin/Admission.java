package tracksoak.bench.standin;

import java.util.Optional;
import java.util.concurrent.TimeUnit;

/**
 * Lets one client in at a time. A client may have several connections: all from one address, made within some seconds of its
 * first and before it writes its first byte. Whoever comes later is another one and would write into the first one's files.
 * Confined to one thread.
 */
final class Admission {

    private static final long GATHERING_NS = TimeUnit.SECONDS.toNanos(5);
    private static final int MOST_CONNECTIONS = 16;

    private String client = "";
    private int connections;
    private long firstNs;
    private boolean written;

    /** Asks for entry; says why it is not given. */
    Optional<String> ask(String address, long nowNs) {
        if (connections == 0) {
            return Optional.empty();
        }
        if (!address.equals(client)) {
            return Optional.of("the drive is in use by " + client);
        }
        if (written || nowNs - firstNs > GATHERING_NS) {
            return Optional.of("the drive is in use by another client on this address");
        }
        return connections >= MOST_CONNECTIONS
                ? Optional.of("a client may have " + MOST_CONNECTIONS + " connections at most")
                : Optional.empty();
    }

    /** Someone who was admitted came in; true if it is a new client. */
    boolean in(String address, long nowNs) {
        connections++;
        if (connections > 1) {
            return false;
        }
        client = address;
        firstNs = nowNs;
        written = false;
        return true;
    }

    void wrote() {
        written = true;
    }

    /** One left; true if it was the last. */
    boolean out() {
        connections--;
        return connections == 0;
    }
}
