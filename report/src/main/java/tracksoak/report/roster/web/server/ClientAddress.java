package tracksoak.report.roster.web.server;

import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/** Which client an address stands for. Stateless. */
final class ClientAddress {

    private ClientAddress() {}

    /** The IP address; of IPv6 only the network, since one client has all addresses of its network. */
    static String of(@Nullable Object socketAddress) {
        InetAddress address = inet(socketAddress);
        if (address == null) {
            return "unknown";
        }
        String text = address.getHostAddress();
        return address.getAddress().length == 16 ? String.join(":", Arrays.copyOf(text.split(":", -1), 4)) : text;
    }

    static @Nullable InetAddress inet(@Nullable Object socketAddress) {
        return socketAddress instanceof InetSocketAddress internet ? internet.getAddress() : null;
    }
}
