package tracksoak.report.roster.web.server;

import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.eclipse.jetty.http.HttpHeader;
import org.jspecify.annotations.Nullable;

/**
 * Who may come in: by crew token in {@code Authorization: Bearer}, or by the cookie that a token was exchanged for. A
 * cookie is worth what its token is worth, each time anew. Wrong tokens are counted by address; a good
 * one is taken all the same, so that nobody can lock out another by trying. Any thread.
 */
final class Authenticator {

    static final String COOKIE = "roster-visit";

    private static final Duration VISIT = Duration.ofHours(16);
    private static final int MOST_VISITS = 2_000;

    /** Of these, visits that one token may have opened; its oldest ends where it opens another. */
    private static final int MOST_OF_ONE = 50;

    private final TokenFile tokens;
    private final InstantSource clock;
    private final SecureRandom random;
    private final RateLimit wrong;
    private final Map<String, Visit> visits = new LinkedHashMap<>() {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Visit> eldest) {
            return size() > MOST_VISITS;
        }
    };

    private record Visit(String tokenId, Instant until) {}

    Authenticator(TokenFile tokens, InstantSource clock, SecureRandom random, Limits limits) {
        this.tokens = tokens;
        this.clock = clock;
        this.random = random;
        this.wrong = new RateLimit(clock, 1.0 / limits.wrongTokenEveryS(), limits.wrongTokensAtOnce());
    }

    /**
     * The token of a request that must carry one in its header.
     *
     * @throws Refusal with 401 where it carries none or a wrong one, 429 where too many wrong ones came before
     */
    CrewToken bearer(Exchange exchange) {
        String header = exchange.header(HttpHeader.AUTHORIZATION);
        if (header == null || !header.regionMatches(true, 0, "Bearer ", 0, 7)) {
            throw noToken("none was sent");
        }
        return checked(header.substring(7).strip(), exchange.client());
    }

    /** Whether the request carries a good cookie. */
    boolean visiting(Exchange exchange) {
        return visitor(exchange.cookie(COOKIE)).isPresent();
    }

    /** The token behind the cookie. */
    private Optional<CrewToken> visitor(@Nullable String cookie) {
        Visit visit = visit(cookie);
        if (visit == null || !clock.instant().isBefore(visit.until)) {
            return Optional.empty();
        }
        return good(visit.tokenId);
    }

    private Optional<CrewToken> good(String id) {
        return tokens.byId(id).filter(token -> trouble(token).isEmpty());
    }

    /** Whether what the request came in by is still good, each time anew. */
    BooleanSupplier mayStay(Exchange exchange) {
        if (exchange.header(HttpHeader.AUTHORIZATION) != null) {
            String id = bearer(exchange).id();
            return () -> good(id).isPresent();
        }
        String cookie = exchange.cookie(COOKIE);
        return () -> visitor(cookie).isPresent();
    }

    /** Whether the request may read where reading is closed. */
    boolean mayRead(Exchange exchange) {
        if (exchange.header(HttpHeader.AUTHORIZATION) != null) {
            bearer(exchange);
            return true;
        }
        return visiting(exchange);
    }

    /** Id of the token that the request came in by; empty where it has none. */
    String holder(Exchange exchange) {
        return exchange.header(HttpHeader.AUTHORIZATION) != null
                ? bearer(exchange).id()
                : visitor(exchange.cookie(COOKIE)).map(CrewToken::id).orElse("");
    }

    /**
     * Exchanges a token for a cookie.
     *
     * @return the cookie's value
     */
    String enter(String text, Exchange exchange) {
        CrewToken token = checked(text, exchange.client());
        byte[] secret = new byte[32];
        random.nextBytes(secret);
        String value = Base64.getUrlEncoder().withoutPadding().encodeToString(secret);
        synchronized (visits) {
            List<String> own = visits.entrySet().stream()
                    .filter(visit -> visit.getValue().tokenId.equals(token.id()))
                    .map(Map.Entry::getKey)
                    .toList();
            own.subList(0, Math.max(0, own.size() - MOST_OF_ONE + 1)).forEach(visits::remove);
            visits.put(value, new Visit(token.id(), clock.instant().plus(VISIT)));
        }
        return value;
    }

    /** Ends a visit. */
    void leave(Exchange exchange) {
        String cookie = exchange.cookie(COOKIE);
        synchronized (visits) {
            visits.remove(cookie == null ? "" : cookie);
        }
    }

    private @Nullable Visit visit(@Nullable String cookie) {
        synchronized (visits) {
            return visits.get(cookie == null ? "" : cookie);
        }
    }

    private CrewToken checked(String text, String client) {
        CrewToken.Shown shown = CrewToken.Shown.of(text);
        Optional<CrewToken> token = tokens.byId(shown.id()).filter(known -> known.opens(shown.secret()));
        String why = token.map(this::trouble).orElse("it is not one of this crew's");
        if (why.isEmpty()) {
            return token.orElseThrow();
        }
        if (!wrong.take(client)) {
            throw Refusal.tooFast("wrong tokens", wrong.waitS(client));
        }
        throw noToken(why);
    }

    private String trouble(CrewToken token) {
        if (!token.revokedAt().isEmpty()) {
            return "it was revoked on " + token.revokedAt();
        }
        if (!token.until().isEmpty() && !clock.instant().isBefore(Instant.parse(token.until()))) {
            return "it ended on " + token.until();
        }
        return "";
    }

    private static Refusal noToken(String why) {
        return new Refusal(
                401,
                "a crew token is needed",
                "",
                why,
                "ask whoever runs the server for a token and send it as Authorization: Bearer TOKEN");
    }
}
