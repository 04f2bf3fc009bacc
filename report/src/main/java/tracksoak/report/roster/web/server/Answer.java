package tracksoak.report.roster.web.server;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * What is sent back. Names and values of headers are the server's own words, never text from a request or a record.
 * Immutable, as long as nobody writes to the body.
 */
public final class Answer {

    static final String HTML = "text/html;charset=utf-8";
    public static final String JSON = "application/json";

    private final int status;
    private final String type;
    private final byte[] body;
    private final Map<String, String> headers;

    private Answer(int status, String type, byte[] body, Map<String, String> headers) {
        this.status = status;
        this.type = type;
        this.body = body;
        this.headers = headers;
    }

    public static Answer of(String type, byte[] body) {
        return new Answer(200, type, body, Map.of());
    }

    public static Answer html(String page) {
        return of(HTML, page.getBytes(StandardCharsets.UTF_8));
    }

    /** To another page of this server. */
    static Answer seeOther(String path) {
        return of(HTML, new byte[0]).withStatus(303).with("Location", path);
    }

    Answer withStatus(int other) {
        return new Answer(other, type, body, headers);
    }

    public Answer with(String name, String value) {
        Map<String, String> more = new LinkedHashMap<>(headers);
        more.put(name, value);
        return new Answer(status, type, body, more);
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
