package tracksoak.report.roster.web.server;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.ByteBuffer;
import java.util.Map;
import java.util.function.Function;
import org.eclipse.jetty.http.HttpField;
import org.eclipse.jetty.http.HttpFields;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;
import org.jspecify.annotations.Nullable;

/** Writes answers and refusals, each with the headers that keep a browser from doing more than it should. */
final class Replies {

    /** For our own pages: style and script from this server only, nothing inline, nobody may frame it. */
    static final String POLICY = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:;"
            + " connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    private static final ObjectMapper JSON = new ObjectMapper();

    private final boolean encrypted;
    private final Function<Refusal, String> page;

    /** @param page renders a refusal for people */
    Replies(boolean encrypted, Function<Refusal, String> page) {
        this.encrypted = encrypted;
        this.page = page;
    }

    /** Headers of every answer. */
    void head(HttpFields.Mutable headers) {
        headers.put("X-Content-Type-Options", "nosniff");
        headers.put("Referrer-Policy", "no-referrer");
        headers.put("Cross-Origin-Resource-Policy", "same-origin");
        headers.put("Cross-Origin-Opener-Policy", "same-origin");
        headers.put("Content-Security-Policy", POLICY);
        headers.put("X-Frame-Options", "DENY");
        headers.put("Permissions-Policy", "camera=(), geolocation=(), microphone=()");
        headers.put(HttpHeader.CACHE_CONTROL, "no-store");
        if (encrypted) {
            headers.put("Strict-Transport-Security", "max-age=31536000");
        }
    }

    void send(HttpAnswer answer, Exchange exchange, Response response, Callback callback) {
        HttpFields.Mutable headers = response.getHeaders();
        head(headers);
        headers.put(HttpHeader.CONTENT_TYPE, answer.type());
        for (Map.Entry<String, String> header : answer.headers().entrySet()) {
            headers.put(header.getKey(), header.getValue());
        }
        byte[] body = answer.body();
        headers.add(new HttpField(HttpHeader.VARY, "Accept-Encoding"));
        if (answer.worthPacking() && exchange.takesGzip()) {
            body = answer.packed();
            headers.put(HttpHeader.CONTENT_ENCODING, "gzip");
        }
        response.setStatus(answer.status());
        if (exchange.method().equals("HEAD")) {
            headers.put(HttpHeader.CONTENT_LENGTH, String.valueOf(body.length));
            callback.succeeded();
        } else {
            response.write(true, ByteBuffer.wrap(body), callback);
        }
    }

    void refuse(Refusal refusal, @Nullable Exchange exchange, Response response, Callback callback) {
        response.reset();
        HttpFields.Mutable headers = response.getHeaders();
        head(headers);
        if (refusal.retryAfterS() > 0) {
            headers.put(HttpHeader.RETRY_AFTER, String.valueOf(refusal.retryAfterS()));
        }
        if (refusal.status() == 401) {
            headers.put(HttpHeader.WWW_AUTHENTICATE, "Bearer realm=\"roster\"");
        }
        boolean people = exchange != null && exchange.wantsPage();
        if (people && refusal.loginHelps()) {
            headers.put(HttpHeader.LOCATION, "/enter");
            response.setStatus(303);
            response.write(true, ByteBuffer.allocate(0), callback);
            return;
        }
        headers.put(HttpHeader.CONTENT_TYPE, people ? HttpAnswer.HTML : HttpAnswer.JSON);
        response.setStatus(refusal.status());
        byte[] body = people ? page.apply(refusal).getBytes(java.nio.charset.StandardCharsets.UTF_8) : json(refusal);
        response.write(true, ByteBuffer.wrap(body), callback);
    }

    /** What was wrong as one JSON document. */
    static byte[] json(Refusal refusal) {
        ObjectNode error = JSON.createObjectNode();
        error.put("schema", "tracksoak/roster-error/1");
        error.put("what", refusal.what());
        error.put("which", refusal.which());
        error.put("why", refusal.why());
        error.put("whatToDo", refusal.todo());
        try {
            return JSON.writeValueAsBytes(error);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("four texts always become JSON", e);
        }
    }
}
