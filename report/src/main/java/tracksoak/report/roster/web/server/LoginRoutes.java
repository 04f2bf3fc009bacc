package tracksoak.report.roster.web.server;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.eclipse.jetty.http.HttpHeader;
import org.jspecify.annotations.Nullable;

/** Where a token is exchanged for a cookie, and given back. */
final class LoginRoutes {

    private static final int MOST_BYTES = 2_000;

    private final Authenticator authenticator;
    private final boolean encrypted;
    private final Function<@Nullable Refusal, String> page;

    /** @param page the form, with what was wrong with the last try */
    LoginRoutes(Authenticator authenticator, boolean encrypted, Function<@Nullable Refusal, String> page) {
        this.authenticator = authenticator;
        this.encrypted = encrypted;
        this.page = page;
    }

    List<Route> routes() {
        return List.of(
                Route.get("/enter", Route.Access.ANYBODY, (exchange, path, body) -> form(Optional.empty())),
                Route.post(
                        "/enter", Route.Access.OWN_PAGES, MOST_BYTES, (exchange, path, body) -> enter(exchange, body)),
                Route.post("/leave", Route.Access.OWN_PAGES, MOST_BYTES, (exchange, path, body) -> {
                    authenticator.leave(exchange);
                    return HttpAnswer.seeOther("/enter").with("Set-Cookie", cookie("", 0));
                }));
    }

    private HttpAnswer form(Optional<Refusal> before) {
        Refusal refusal = before.orElse(null);
        HttpAnswer answer = HttpAnswer.html(page.apply(refusal)).with("Referrer-Policy", "same-origin");
        return refusal == null ? answer : answer.withStatus(refusal.status());
    }

    private HttpAnswer enter(Exchange exchange, byte[] body) {
        String type = exchange.header(HttpHeader.CONTENT_TYPE);
        if (type == null || !type.startsWith("application/x-www-form-urlencoded")) {
            throw Exchange.bad("the form", "it is not the form of this server");
        }
        try {
            String value = authenticator.enter(token(new String(body, StandardCharsets.UTF_8)), exchange);
            return HttpAnswer.seeOther("/").with("Set-Cookie", cookie(value, 16 * 3_600));
        } catch (Refusal refusal) {
            return form(Optional.of(refusal));
        }
    }

    private static String token(String form) {
        for (String pair : form.split("&", -1)) {
            if (pair.startsWith("token=")) {
                try {
                    return URLDecoder.decode(pair.substring(6), StandardCharsets.UTF_8)
                            .strip();
                } catch (IllegalArgumentException e) {
                    return "";
                }
            }
        }
        return "";
    }

    /** Not readable by scripts, and sent along by pages of this server only. */
    private String cookie(String value, int seconds) {
        return Authenticator.COOKIE + "=" + value + "; Path=/; Max-Age=" + seconds + "; HttpOnly; SameSite=Strict"
                + (encrypted ? "; Secure" : "");
    }
}
