package tracksoak.report.roster.web.server;

import java.net.InetAddress;
import java.util.Locale;
import java.util.regex.Pattern;
import org.eclipse.jetty.http.HttpCookie;
import org.eclipse.jetty.http.HttpField;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.util.Fields;
import org.jspecify.annotations.Nullable;

/** One request as the rest of the server sees it: bounded, decoded, and nothing of it trusted. One thread at a time. */
public final class Exchange {

    private static final int MOST_PARAMETERS = 20;
    private static final int LONGEST_VALUE = 500;
    private static final int LONGEST_PATH = 500;
    private static final Pattern WHOLE = Pattern.compile("0|[1-9][0-9]{0,8}");

    private final Request request;
    private final boolean encrypted;
    private final String path;
    private final Fields query;

    /** @throws Refusal if the address is malformed or too long */
    Exchange(Request request, boolean encrypted) {
        this.request = request;
        this.encrypted = encrypted;
        this.path = Request.getPathInContext(request);
        if (path.length() > LONGEST_PATH) {
            throw bad("the address", "longer than " + LONGEST_PATH + " characters");
        }
        try {
            this.query = Request.extractQueryParameters(request);
        } catch (RuntimeException e) {
            throw bad("the part after ?", "it cannot be decoded");
        }
        if (query.getSize() > MOST_PARAMETERS) {
            throw bad("the part after ?", "more than " + MOST_PARAMETERS + " parameters");
        }
    }

    String method() {
        return request.getMethod();
    }

    /** Decoded, beginning with {@code /}. */
    String path() {
        return path;
    }

    /** A parameter, stripped; empty where there is none. */
    public String parameter(String name) {
        Fields.Field field = query.get(name);
        if (field == null || field.getValue() == null) {
            return "";
        }
        if (field.getValues().size() > 1) {
            throw bad(name, "given more than once");
        }
        if (field.getValue().length() > LONGEST_VALUE) {
            throw bad(name, "longer than " + LONGEST_VALUE + " characters");
        }
        return field.getValue().strip();
    }

    /** A whole number. */
    public int whole(String name, int usual, int least, int most) {
        String value = parameter(name);
        if (value.isEmpty()) {
            return usual;
        }
        if (!WHOLE.matcher(value).matches() || Integer.parseInt(value) < least || Integer.parseInt(value) > most) {
            throw bad(name, "it must be a whole number from " + least + " to " + most);
        }
        return Integer.parseInt(value);
    }

    /** A header; null where there is none or more than one. */
    @Nullable
    public String header(HttpHeader name) {
        HttpField only = null;
        for (HttpField field : request.getHeaders()) {
            if (field.getHeader() == name) {
                if (only != null) {
                    return null;
                }
                only = field;
            }
        }
        return only == null ? null : only.getValue();
    }

    /** A header that Jetty has no name for. */
    @Nullable
    public String header(String name) {
        return request.getHeaders().get(name);
    }

    /** How often a header was sent. */
    long times(HttpHeader name) {
        return request.getHeaders().stream()
                .filter(field -> field.getHeader() == name)
                .count();
    }

    /** A cookie; null where there is none. */
    @Nullable
    String cookie(String name) {
        for (HttpCookie cookie : Request.getCookies(request)) {
            if (cookie.getName().equals(name)) {
                return cookie.getValue();
            }
        }
        return null;
    }

    /** Whether the client would rather have a page than JSON. */
    boolean wantsPage() {
        String accept = header(HttpHeader.ACCEPT);
        return accept != null && accept.toLowerCase(Locale.ROOT).contains("text/html");
    }

    boolean takesGzip() {
        String accept = header(HttpHeader.ACCEPT_ENCODING);
        return accept != null && accept.toLowerCase(Locale.ROOT).matches("(.*,)?\\s*gzip\\s*(,.*)?");
    }

    boolean encrypted() {
        return encrypted;
    }

    /** Whom the request comes from, see {@link ClientAddress}. */
    String client() {
        return ClientAddress.of(request.getConnectionMetaData().getRemoteSocketAddress());
    }

    /** The address of this computer that the connection came in on. */
    public @Nullable InetAddress local() {
        return ClientAddress.inet(request.getConnectionMetaData().getLocalSocketAddress());
    }

    int clientPort() {
        return Request.getRemotePort(request);
    }

    int serverPort() {
        return Request.getLocalPort(request);
    }

    /** Whether an earlier request of the same connection was marked so. */
    boolean marked(String name) {
        return request.getConnectionMetaData().getAttribute(name) != null;
    }

    void mark(String name) {
        request.getConnectionMetaData().setAttribute(name, true);
    }

    public static Refusal bad(String which, String why) {
        return new Refusal(400, "the request cannot be answered", which, why, "correct it and try again");
    }
}
