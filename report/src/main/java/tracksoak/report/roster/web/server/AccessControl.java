package tracksoak.report.roster.web.server;

import java.time.InstantSource;
import org.jspecify.annotations.Nullable;

/** Every check a request passes before anything is looked up for it. Any thread. */
final class AccessControl {

    private final boolean openReading;
    private final Origins origins;
    private final Authenticator authenticator;
    private final RateLimit requests;

    AccessControl(RosterSettings settings, Authenticator authenticator, InstantSource clock) {
        this.openReading = settings.openReading();
        this.origins = new Origins(settings.hosts());
        this.authenticator = authenticator;
        this.requests = new RateLimit(
                clock, settings.limits().readsPerS(), settings.limits().readsAtOnce());
    }

    /** @throws Refusal before anything else is done for the request */
    void first(Exchange exchange) {
        origins.checkHost(exchange);
        String client = exchange.client();
        if (!requests.take(client)) {
            throw Refusal.tooFast("from your address", requests.waitS(client));
        }
    }

    /**
     * Whether the one who asks may have this.
     *
     * @return an answer instead, where a page asks for a token; null where it may go on
     * @throws Refusal where it may not
     */
    @Nullable
    HttpAnswer check(Exchange exchange, Route.Access access) {
        switch (access) {
            case ANYBODY -> {}
            case OWN_PAGES -> origins.checkOrigin(exchange, true);
            case CREW -> {
                origins.checkOrigin(exchange, false);
                authenticator.bearer(exchange);
            }
            case READERS -> {
                if (!openReading && !authenticator.mayRead(exchange)) {
                    if (exchange.wantsPage()) {
                        return HttpAnswer.seeOther("/enter");
                    }
                    throw new Refusal(
                            401,
                            "a crew token is needed",
                            "",
                            "this roster is closed to readers without one",
                            "send it as Authorization: Bearer TOKEN, or enter it at /enter");
                }
            }
        }
        return null;
    }
}
