package tracksoak.report.roster.web.server;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** Where a token is exchanged for a cookie, and given back. */
final class LoginRoutes {

    private static final int MOST_BYTES = 2_000;
    private static final int VISIT_S = 16 * 3_600;

    private static final String OPENED =
            "<!DOCTYPE html><html lang=\"en\"><meta charset=\"utf-8\"><title>Tracksoak</title>"
                    + "<link rel=\"icon\" href=\"/assets/mark.svg\">"
                    + "<meta http-equiv=\"refresh\" content=\"0;url=/bench\"><p><a href=\"/bench\">To the bench</a></p></html>";

    private final Authenticator authenticator;
    private final boolean encrypted;
    private final Function<@Nullable Refusal, String> page;

    /** @param page the form, with what was wrong with the last try */
    LoginRoutes(Authenticator authenticator, boolean encrypted, Function<@Nullable Refusal, String> page) {
        this.authenticator = authenticator;
        this.encrypted = encrypted;
        this.page = page;
    }

    /** @param keyInAddress whether an address may bring a token */
    List<Route> routes(boolean keyInAddress) {
        List<Route> routes = new ArrayList<>(List.of(
                Route.get("/enter", Route.Access.ANYBODY, (exchange, path, body) -> form(Optional.empty())),
                Route.post(
                        "/enter", Route.Access.OWN_PAGES, MOST_BYTES, (exchange, path, body) -> enter(exchange, body)),
                Route.post("/leave", Route.Access.OWN_PAGES, MOST_BYTES, (exchange, path, body) -> {
                    authenticator.leave(exchange);
                    return HttpAnswer.seeOther("/enter").with("Set-Cookie", cookie("", 0));
                })));
        if (keyInAddress) {
            routes.add(Route.get("/open", Route.Access.ANYBODY, (exchange, path, body) -> open(exchange)));
        }
        return routes;
    }

    /**
     * The page leads on by itself: a browser keeps a strict cookie from a mere redirect of what another site, or a file, opened.
     */
    private HttpAnswer open(Exchange exchange) {
        String value = authenticator.enter(exchange.parameter("key"), exchange);
        return HttpAnswer.html(OPENED).with("Set-Cookie", cookie(value, VISIT_S));
    }

    private HttpAnswer form(Optional<Refusal> before) {
        Refusal refusal = before.orElse(null);
        HttpAnswer answer = HttpAnswer.html(page.apply(refusal)).with("Referrer-Policy", "same-origin");
        return refusal == null ? answer : answer.withStatus(refusal.status());
    }

    private HttpAnswer enter(Exchange exchange, byte[] body) {
        String token = Form.of(exchange, body).field("token");
        try {
            String value = authenticator.enter(token, exchange);
            return HttpAnswer.seeOther("/").with("Set-Cookie", cookie(value, VISIT_S));
        } catch (Refusal refusal) {
            return form(Optional.of(refusal));
        }
    }

    /** Not readable by scripts, and sent along by pages of this server only. */
    private String cookie(String value, int seconds) {
        return Authenticator.COOKIE + "=" + value + "; Path=/; Max-Age=" + seconds + "; HttpOnly; SameSite=Strict"
                + (encrypted ? "; Secure" : "");
    }
}
