package tracksoak.report.roster.web.server;

import java.time.InstantSource;
import java.util.function.BooleanSupplier;

/** Every check a request passes before anything is looked up for it. Any thread. */
final class AccessControl {

    private final boolean openReading;
    private final Origins origins;
    private final Authenticator authenticator;
    private final RateLimit requests;
    private final PeerUser peers;

    /** @param peers who may come at all */
    AccessControl(RosterSettings settings, Authenticator authenticator, InstantSource clock, PeerUser peers) {
        this.peers = peers;
        this.openReading = settings.openReading();
        this.origins = new Origins(settings.hosts());
        this.authenticator = authenticator;
        this.requests = new RateLimit(
                clock, settings.limits().readsPerS(), settings.limits().readsAtOnce());
    }

    /** @throws Refusal before anything else is done for the request */
    void first(Exchange exchange) {
        origins.checkHost(exchange);
        peers.check(exchange);
        String client = exchange.client();
        if (!requests.take(client)) {
            throw Refusal.tooFast("from your address", requests.waitS(client));
        }
    }

    /**
     * The one gate before every route: returns only where the one who asks may have it.
     *
     * @throws Refusal where they may not
     */
    void check(Exchange exchange, Route.Access access) {
        switch (access) {
            case ANYBODY -> {}
            case OWN_PAGES -> origins.checkOrigin(exchange, true);
            case CREW -> {
                origins.checkOrigin(exchange, false);
                authenticator.bearer(exchange);
            }
            case READERS -> mustRead(exchange);
            case READERS_ON_OWN_PAGES -> {
                origins.checkOrigin(exchange, true);
                mustRead(exchange);
            }
        }
    }

    private void mustRead(Exchange exchange) {
        if (!openReading && !authenticator.mayRead(exchange)) {
            throw Refusal.closed();
        }
    }

    /** Id of the token that lets a reader in; empty where reading is open to all. */
    String holder(Exchange exchange) {
        return openReading ? "" : authenticator.holder(exchange);
    }

    /** Whether a reader who was let in may stay, asked again and again while an answer goes on. */
    BooleanSupplier mayStay(Exchange exchange) {
        return openReading ? () -> true : authenticator.mayStay(exchange);
    }
}
