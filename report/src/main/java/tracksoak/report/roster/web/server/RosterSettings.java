package tracksoak.report.roster.web.server;

import java.net.InetAddress;
import java.net.URI;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;

/**
 * How the roster is served. Checked once, here; the server then trusts it.
 *
 * @param bind address to listen on, an IP address or {@code localhost}
 * @param port 1 to 65535, or 0 for any free one
 * @param certificate PEM file of the certificate chain, null for none; together with {@code key}
 * @param key PEM file of its private key (PKCS #8, unencrypted)
 * @param plainAllowed whether an address other than loopback may be served without a certificate
 * @param openReading whether anybody who reaches the server may read; otherwise reading needs a crew token too
 * @param names further host names the server is reached by, lower case, without port
 * @param address how phones reach the server, for QR codes, such as {@code https://roster.example:8443}; null to take it
 *     from the request
 * @param limits how much a client may ask
 */
public record RosterSettings(
        String bind,
        int port,
        @Nullable Path certificate,
        @Nullable Path key,
        boolean plainAllowed,
        boolean openReading,
        List<String> names,
        @Nullable String address,
        Limits limits) {

    /** The port unless told otherwise. */
    public static final int USUAL_PORT = 8432;

    private static final String CANNOT = "the server cannot be started";
    private static final Pattern NAME = Pattern.compile("[a-z0-9]([a-z0-9.-]{0,251}[a-z0-9])?");
    private static final Pattern ADDRESS =
            Pattern.compile("https?://([a-z0-9][a-z0-9.-]{0,252}|\\[[0-9a-f:.]+])(:[0-9]{1,5})?");

    /** This computer only, open to read. */
    public static RosterSettings loopback() {
        return new RosterSettings("127.0.0.1", USUAL_PORT, null, null, false, true, List.of(), null, Limits.usual());
    }

    /**
     * Checks everything but the files.
     *
     * @throws Problem if a value is wrong, or the address is not loopback and neither a certificate is given nor
     *     plain allowed
     */
    public RosterSettings {
        names = List.copyOf(names);
        if (port < 0 || port > 65_535) {
            throw wrong("port " + port, "it is no port", "give 1 to 65535, or 0 for any free one");
        }
        InetAddress where = resolved(bind);
        if ((certificate == null) != (key == null)) {
            throw wrong(
                    certificate == null ? "a key without a certificate" : "a certificate without a key",
                    "TLS needs both",
                    "give both PEM files, or neither");
        }
        if (!where.isLoopbackAddress() && certificate == null && !plainAllowed) {
            throw wrong(
                    bind,
                    "tokens would cross the network unencrypted",
                    "give a certificate and its key (--certificate, --key), or allow plain HTTP on purpose (--unencrypted)");
        }
        for (String name : names) {
            if (!NAME.matcher(name).matches()) {
                throw wrong("name \"" + name + "\"", "it is no host name", "give it in lower case, without port");
            }
        }
        if (address != null && !ADDRESS.matcher(address).matches()) {
            throw wrong(
                    "address \"" + address + "\"",
                    "it is no address of a server",
                    "give it as https://host or https://host:port, in lower case, without a path");
        }
    }

    /** True where connections are encrypted. */
    public boolean encrypted() {
        return certificate != null;
    }

    /** The address to listen on. */
    InetAddress where() {
        return resolved(bind);
    }

    /** Host names that may stand in {@code Host}, besides the IP address a connection came in on. */
    List<String> hosts() {
        return address == null
                ? names
                : java.util.stream.Stream.concat(
                                names.stream(),
                                java.util.stream.Stream.of(URI.create(address).getHost()))
                        .toList();
    }

    /** On another port. */
    public RosterSettings withPort(int newPort) {
        return new RosterSettings(bind, newPort, certificate, key, plainAllowed, openReading, names, address, limits);
    }

    /** Open or closed to readers without a token. */
    public RosterSettings withOpenReading(boolean open) {
        return new RosterSettings(bind, port, certificate, key, plainAllowed, open, names, address, limits);
    }

    /** With other limits. */
    public RosterSettings withLimits(Limits newLimits) {
        return new RosterSettings(bind, port, certificate, key, plainAllowed, openReading, names, address, newLimits);
    }

    /** Why a server is not even started. */
    static Problem wrong(String which, String why, String todo) {
        return new Problem(Kind.ASKED_WRONG, CANNOT, which, why, todo);
    }

    private static InetAddress resolved(String bind) {
        String name = bind.toLowerCase(Locale.ROOT);
        if (!name.equals("localhost") && !name.matches("[0-9.]+|\\[?[0-9a-f:.]+]?")) {
            throw wrong(
                    "address \"" + bind + "\" to listen on",
                    "it is no IP address",
                    "give one of this computer's addresses, 0.0.0.0 for all of them, or localhost");
        }
        try {
            return InetAddress.getByName(name);
        } catch (UnknownHostException e) {
            throw wrong("address \"" + bind + "\" to listen on", "it is no IP address", "give 127.0.0.1 or 0.0.0.0");
        }
    }
}
