package tracksoak.report.roster.web.server;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Digests;

/**
 * What is sent back. Names and values of headers are the server's own words, never text from a request or a record.
 * Immutable, as long as nobody writes to the body.
 */
public final class HttpAnswer {

    static final String HTML = "text/html;charset=utf-8";
    public static final String JSON = "application/json";

    private static final int WORTH_PACKING = 1_400;

    private final int status;
    private final String type;
    private final byte[] body;
    private final Map<String, String> headers;
    private final byte @Nullable [] packed;

    private HttpAnswer(int status, String type, byte[] body, Map<String, String> headers, byte @Nullable [] packed) {
        this.status = status;
        this.type = type;
        this.body = body;
        this.headers = headers;
        this.packed = packed;
    }

    public static HttpAnswer of(String type, byte[] body) {
        return new HttpAnswer(200, type, body, Map.of(), null);
    }

    public static HttpAnswer html(String page) {
        return of(HTML, page.getBytes(StandardCharsets.UTF_8));
    }

    /** To another page of this server. */
    public static HttpAnswer seeOther(String path) {
        return of(HTML, new byte[0]).withStatus(303).with("Location", path);
    }

    /** The same, to be sent many times: its compressed form is made once. */
    public HttpAnswer kept() {
        return new HttpAnswer(status, type, body, headers, body.length < WORTH_PACKING ? body : Digests.gzip(body));
    }

    /** Whether it lies in memory anyway, whether or not it is being sent. */
    boolean isKept() {
        return packed != null;
    }

    /** Bytes it takes in memory. */
    public long size() {
        byte[] second = packed;
        return body.length + (second == null || second == body ? 0L : second.length);
    }

    /** Whether it is worth compressing for a client that takes that. */
    boolean worthPacking() {
        return body.length >= WORTH_PACKING;
    }

    /** The body in gzip. Not to be written to. */
    byte[] packed() {
        byte[] ready = packed;
        return ready == null ? Digests.gzip(body) : ready;
    }

    public HttpAnswer withStatus(int other) {
        return new HttpAnswer(other, type, body, headers, packed);
    }

    public HttpAnswer with(String name, String value) {
        Map<String, String> more = new LinkedHashMap<>(headers);
        more.put(name, value);
        return new HttpAnswer(status, type, body, more, packed);
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
