package tracksoak.report.roster.web.server;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What is sent back. Names and values of headers are the server's own words, never text from a request or a record.
 * Immutable, as long as nobody writes to the body.
 */
public final class HttpAnswer {

    static final String HTML = "text/html;charset=utf-8";
    public static final String JSON = "application/json";

    private final int status;
    private final String type;
    private final byte[] body;
    private final Map<String, String> headers;

    private HttpAnswer(int status, String type, byte[] body, Map<String, String> headers) {
        this.status = status;
        this.type = type;
        this.body = body;
        this.headers = headers;
    }

    public static HttpAnswer of(String type, byte[] body) {
        return new HttpAnswer(200, type, body, Map.of());
    }

    public static HttpAnswer html(String page) {
        return of(HTML, page.getBytes(StandardCharsets.UTF_8));
    }

    /** To another page of this server. */
    static HttpAnswer seeOther(String path) {
        return of(HTML, new byte[0]).withStatus(303).with("Location", path);
    }

    HttpAnswer withStatus(int other) {
        return new HttpAnswer(other, type, body, headers);
    }

    public HttpAnswer with(String name, String value) {
        Map<String, String> more = new LinkedHashMap<>(headers);
        more.put(name, value);
        return new HttpAnswer(status, type, body, more);
    }

    /** HTTP status. */
    int status() {
        return status;
    }

    /** Media type. */
    String type() {
        return type;
    }

    /** Not to be written to. */
    byte[] body() {
        return body;
    }

    /** Further headers. */
    Map<String, String> headers() {
        return headers;
    }
}
