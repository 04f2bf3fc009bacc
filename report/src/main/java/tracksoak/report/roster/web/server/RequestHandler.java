package tracksoak.report.roster.web.server;

import java.io.IOException;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;
import org.eclipse.jetty.util.Promise;
import org.eclipse.jetty.util.thread.Invocable;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.Problem;

/**
 * The server's one handler: guards, finds the route, reads a bounded body without holding a thread, answers in turn. Whatever goes wrong
 * while a request is served, an {@link Error} too, is logged and answered, and the server goes on.
 */
final class RequestHandler extends Handler.Abstract {

    /** Bodies and answers up to this size, in bytes, take no share of the memory for large ones. */
    private static final int SMALL = 64 << 10;

    /** A body too large by no more than this, in bytes, is let go by before the connection is used again. */
    private static final long MOST_LET_BY = 64L << 20;

    private final RosterSettings settings;
    private final AccessControl access;
    private final List<Route> routes;
    private final Live live;
    private final Supplier<String> mark;
    private final Deadlines deadlines;
    private final Replies replies;
    private final Consumer<Throwable> log;
    private final FairExecutor turns;
    private final MemoryShare memory;

    /**
     * @param mark how far the roster is, for pages that join
     * @param turns where requests are answered
     * @param log takes what failed inside the server
     */
    RequestHandler(
            RosterSettings settings,
            AccessControl access,
            List<Route> routes,
            Live live,
            Supplier<String> mark,
            Deadlines deadlines,
            Replies replies,
            FairExecutor turns,
            Consumer<Throwable> log) {
        this.settings = settings;
        this.access = access;
        this.routes = List.copyOf(routes);
        this.live = live;
        this.mark = mark;
        this.deadlines = deadlines;
        this.replies = replies;
        this.turns = turns;
        this.log = log;
        this.memory = new MemoryShare(
                settings.limits().memoryBytes(), settings.limits().bodyBytes());
    }

    @Override
    public boolean handle(Request request, Response response, Callback callback) {
        deadlines.body(request);
        Exchange exchange = null;
        try {
            exchange = new Exchange(request, settings.encrypted());
            access.first(exchange);
            serve(exchange, request, response, callback);
        } catch (RuntimeException | Error e) {
            // a connection that is closed on a client that is still sending may be used by it for the next request
            boolean small = request.getLength() > 0 && request.getLength() <= SMALL;
            refuse(e, exchange, response, small ? lettingBy(request, callback) : callback);
        }
        return true;
    }

    /** What is sent is let go by once it is answered, and kept nowhere. */
    private static Callback lettingBy(Request request, Callback callback) {
        return Callback.from(() -> Content.Source.consumeAll(request, callback), callback::failed);
    }

    private record Found(Route route, Matcher path) {}

    private void serve(Exchange exchange, Request request, Response response, Callback callback) {
        Found found = found(exchange);
        Route route = found.route;
        access.check(exchange, route.access());
        Route.Endpoint endpoint = route.endpoint();
        if (endpoint == null) {
            replies.head(response.getHeaders());
            deadlines.none(request);
            live.join(
                    exchange.client(),
                    access.holder(exchange),
                    access.mayStay(exchange),
                    request,
                    response,
                    callback,
                    mark);
        } else if (route.mostBytes() == 0) {
            deadlines.answer(request);
            answer(exchange, response, callback, () -> {}, () -> endpoint.answer(exchange, found.path, new byte[0]));
        } else {
            withBody(endpoint, found, exchange, request, response, callback);
        }
    }

    private Found found(Exchange exchange) {
        boolean known = false;
        for (Route route : routes) {
            Matcher path = route.path().matcher(exchange.path());
            if (path.matches()) {
                known = true;
                boolean head = exchange.method().equals("HEAD") && route.endpoint() != null;
                if (route.method().equals(head ? "GET" : exchange.method())) {
                    return new Found(route, path);
                }
            }
        }
        throw known
                ? new Refusal(405, "this cannot be done here", "the method", "this address takes another", "see docs")
                : Refusal.notFound("this address");
    }

    /** Answers when it is the client's turn; {@code over} runs once, answered or not. */
    private void answer(
            Exchange exchange, Response response, Callback callback, Runnable over, Supplier<HttpAnswer> answer) {
        boolean accepted = turns.execute(exchange.client(), () -> {
            try {
                send(answer.get(), exchange, response, callback);
            } catch (RuntimeException | Error e) {
                refuse(e, exchange, response, callback);
            } finally {
                over.run();
            }
        });
        if (!accepted) {
            over.run();
            throw Refusal.busy();
        }
    }

    /** A large answer takes its share of the memory until the client has read it. */
    private void send(HttpAnswer answer, Exchange exchange, Response response, Callback callback) {
        long bytes = answer.size();
        if (answer.isKept() || bytes <= SMALL) {
            replies.send(answer, exchange, response, callback);
            return;
        }
        Share share = share(exchange, bytes);
        try {
            replies.send(answer, exchange, response, Callback.from(callback, share::giveBack));
        } catch (RuntimeException | Error e) {
            share.giveBack();
            throw e;
        }
    }

    private void withBody(
            Route.Endpoint endpoint,
            Found found,
            Exchange exchange,
            Request request,
            Response response,
            Callback callback) {
        int most = found.route.mostBytes();
        long length = request.getLength();
        if (length > MOST_LET_BY) {
            throw Refusal.tooLarge(most);
        }
        if (length > most) {
            // whoever is cut off while sending may never read why
            replies.refuse(Refusal.tooLarge(most), exchange, response, lettingBy(request, callback));
            return;
        }
        boolean packed = packed(exchange);
        // what is not known yet, the length of a body in pieces or of what unpacks, may be the most
        Share share = share(exchange, packed || length < 0 ? most : length);
        try {
            Content.Source.asByteArrayAsync(
                    request, most, Promise.Invocable.from(Invocable.InvocationType.NON_BLOCKING, (bytes, failure) -> {
                        try {
                            deadlines.answer(request);
                            answer(exchange, response, callback, share::giveBack, () -> {
                                byte[] whole = whole(bytes, failure, most);
                                return endpoint.answer(exchange, found.path, packed ? unpacked(whole, most) : whole);
                            });
                        } catch (RuntimeException | Error e) {
                            share.giveBack();
                            refuse(e, exchange, response, callback);
                        }
                    }));
        } catch (RuntimeException | Error e) {
            share.giveBack();
            throw e;
        }
    }

    /** A share of the memory for large bodies and answers, given back once. */
    private final class Share {

        private final String client;
        private long bytes;

        private Share(String client, long bytes) {
            this.client = client;
            this.bytes = bytes;
        }

        synchronized void giveBack() {
            memory.giveBack(client, bytes);
            bytes = 0;
        }
    }

    /** @throws Refusal where there is none now */
    private Share share(Exchange exchange, long bytes) {
        long wanted = bytes <= SMALL ? 0 : Math.min(bytes, settings.limits().bodyBytes());
        if (!memory.take(exchange.client(), wanted)) {
            throw Refusal.busy();
        }
        return new Share(exchange.client(), wanted);
    }

    /** A body beyond the limit is reported as an illegal state, and everything else as an I/O failure. */
    private static byte[] whole(byte @Nullable [] bytes, @Nullable Throwable failure, int most) {
        if (bytes != null && failure == null) {
            return bytes;
        }
        throw failure instanceof IllegalStateException
                ? Refusal.tooLarge(most)
                : Exchange.bad("the body", "it did not come whole");
    }

    private static boolean packed(Exchange exchange) {
        String coding = exchange.header(HttpHeader.CONTENT_ENCODING);
        if (coding == null || coding.equalsIgnoreCase("identity")) {
            return false;
        }
        if (coding.equalsIgnoreCase("gzip")) {
            return true;
        }
        throw new Refusal(
                415, "the request cannot be taken", "Content-Encoding", "it is not known here", "send gzip or plain");
    }

    private static byte[] unpacked(byte[] bytes, int most) {
        byte[] plain;
        try {
            plain = Digests.gunzip(bytes, most);
        } catch (IOException e) {
            throw Exchange.bad("the body", "it says it is gzip, and is not");
        }
        if (plain.length > most) {
            throw Refusal.tooLarge(most);
        }
        return plain;
    }

    private void refuse(Throwable e, @Nullable Exchange exchange, Response response, Callback callback) {
        Refusal refusal;
        if (e instanceof Refusal known) {
            refusal = known;
        } else if (e instanceof Problem trouble) {
            if (Refusal.ofTheStore(trouble)) {
                log.accept(e);
            }
            refusal = Refusal.of(trouble);
        } else {
            log.accept(e);
            refusal = Refusal.broken();
        }
        if (response.isCommitted()) {
            callback.failed(e);
        } else {
            replies.refuse(refusal, exchange, response, callback);
        }
    }
}
