package tracksoak.report.roster.web.server;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.eclipse.jetty.http.HttpHeader;
import org.jspecify.annotations.Nullable;

/**
 * Keeps other web sites from using a visitor's browser against the roster. A name in {@code Host} must be one the server
 * was told, or an IP address it is really reached by: a name that somebody else points here (DNS rebinding) is refused.
 * What changes something must not come from a page of another origin (RFC 6454; Fetch Metadata where sent).
 */
final class Origins {

    private static final Pattern HOST = Pattern.compile("(\\[[0-9a-f:.]{2,45}]|[a-z0-9.-]{1,253})(:[0-9]{1,5})?");
    private static final Pattern IPV4 = Pattern.compile("[0-9]{1,3}(\\.[0-9]{1,3}){3}");

    private final List<String> names;

    /** @param names host names the server may be called by, lower case */
    Origins(List<String> names) {
        this.names = List.copyOf(names);
    }

    /** @throws Refusal where the request was not meant for this server */
    void checkHost(Exchange exchange) {
        String host = exchange.header(HttpHeader.HOST);
        Matcher parts = HOST.matcher(host == null ? "" : host.toLowerCase(Locale.ROOT));
        if (!parts.matches() || !mayBeCalled(parts.group(1), exchange.local())) {
            throw new Refusal(
                    421,
                    "this server does not answer to that name",
                    "Host",
                    "it is neither an address the server is reached by nor a name it was given",
                    "use the address the server printed when it started, or start it with this name");
        }
    }

    private boolean mayBeCalled(String name, @Nullable InetAddress local) {
        if (names.contains(name)) {
            return true;
        }
        if (local == null) {
            return false;
        }
        if (name.equals("localhost")) {
            return local.isLoopbackAddress();
        }
        if (!name.startsWith("[") && !IPV4.matcher(name).matches()) {
            return false;
        }
        try {
            return InetAddress.getByName(name).equals(local);
        } catch (UnknownHostException e) {
            return false;
        }
    }

    /**
     * For requests that change something.
     *
     * @param page whether only a page of ours may send it, so that a missing {@code Origin} is refused too
     * @throws Refusal where a page of another origin sent it
     */
    void checkOrigin(Exchange exchange, boolean page) {
        String site = exchange.header("Sec-Fetch-Site");
        String origin = exchange.header(HttpHeader.ORIGIN);
        boolean several = exchange.times(HttpHeader.ORIGIN) > 1;
        String own = (exchange.encrypted() ? "https://" : "http://") + exchange.header(HttpHeader.HOST);
        boolean fine = origin == null ? !page && !several : origin.equalsIgnoreCase(own);
        if (!fine || (site != null && !site.equals("same-origin") && !site.equals("none"))) {
            throw new Refusal(
                    403,
                    "this request came from another web site",
                    "Origin",
                    "only pages of this server may send it",
                    "open the roster itself and try again there");
        }
    }
}
