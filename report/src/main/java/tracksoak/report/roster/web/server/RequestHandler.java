package tracksoak.report.roster.web.server;

import java.io.IOException;
import java.util.List;
import java.util.concurrent.Executor;
import java.util.concurrent.Semaphore;
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

/** The server's one handler: guards, finds the route, reads a bounded body without holding a thread, answers. */
final class RequestHandler extends Handler.Abstract {

    /** Bodies up to this size are not counted against the large ones. */
    private static final int SMALL_BODY = 16 << 10;

    private final RosterSettings settings;
    private final AccessControl access;
    private final List<Route> routes;
    private final Live live;
    private final Supplier<String> mark;
    private final Deadlines deadlines;
    private final Replies replies;
    private final Consumer<Throwable> log;
    private final Executor workers;
    private final Semaphore bodies;

    /**
     * @param mark how far the roster is, for pages that join
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
            Executor workers,
            Consumer<Throwable> log) {
        this.settings = settings;
        this.access = access;
        this.routes = List.copyOf(routes);
        this.live = live;
        this.mark = mark;
        this.deadlines = deadlines;
        this.replies = replies;
        this.workers = workers;
        this.log = log;
        this.bodies = new Semaphore(settings.limits().bodiesAtOnce());
    }

    @Override
    public boolean handle(Request request, Response response, Callback callback) {
        deadlines.body(request);
        Exchange exchange = null;
        try {
            exchange = new Exchange(request, settings.encrypted());
            access.first(exchange);
            if (exchange.path().equals("/live") && exchange.method().equals("GET")) {
                access.check(exchange, Route.Access.READERS);
                replies.head(response.getHeaders());
                deadlines.none(request);
                live.join(request, response, callback, mark.get());
            } else {
                serve(exchange, request, response, callback);
            }
        } catch (RuntimeException e) {
            refuse(e, exchange, response, callback);
        }
        return true;
    }

    private void serve(Exchange exchange, Request request, Response response, Callback callback) {
        Matcher path = null;
        Route found = null;
        boolean known = false;
        String method = exchange.method().equals("HEAD") ? "GET" : exchange.method();
        for (Route route : routes) {
            Matcher matcher = route.path().matcher(exchange.path());
            if (matcher.matches()) {
                known = true;
                if (route.method().equals(method)) {
                    found = route;
                    path = matcher;
                }
            }
        }
        if (found == null || path == null) {
            throw known
                    ? new Refusal(
                            405, "this cannot be done here", "the method", "this address takes another", "see docs")
                    : Refusal.notFound("this address");
        }
        HttpAnswer instead = access.check(exchange, found.access());
        if (instead != null) {
            replies.send(instead, exchange, response, callback);
        } else if (found.mostBytes() == 0) {
            deadlines.answer(request);
            replies.send(found.endpoint().answer(exchange, path, new byte[0]), exchange, response, callback);
        } else {
            withBody(found, path, exchange, request, response, callback);
        }
    }

    private void withBody(
            Route route, Matcher path, Exchange exchange, Request request, Response response, Callback callback) {
        if (request.getLength() > route.mostBytes()) {
            throw Refusal.tooLarge(route.mostBytes());
        }
        boolean large = route.mostBytes() > SMALL_BODY;
        if (large && !bodies.tryAcquire()) {
            throw Refusal.busy();
        }
        Content.Source.asByteArrayAsync(
                request,
                route.mostBytes(),
                Promise.Invocable.from(
                        Invocable.InvocationType.NON_BLOCKING,
                        (bytes, failure) -> workers.execute(() -> {
                            try {
                                deadlines.answer(request);
                                byte[] plain = plain(exchange, whole(bytes, failure, route), route.mostBytes());
                                HttpAnswer answer = route.endpoint().answer(exchange, path, plain);
                                replies.send(answer, exchange, response, callback);
                            } catch (RuntimeException e) {
                                refuse(e, exchange, response, callback);
                            } finally {
                                if (large) {
                                    bodies.release();
                                }
                            }
                        })));
    }

    /** A body beyond the limit is reported as an illegal state, and everything else as an I/O failure. */
    private static byte[] whole(byte @Nullable [] bytes, @Nullable Throwable failure, Route route) {
        if (bytes != null && failure == null) {
            return bytes;
        }
        throw failure instanceof IllegalStateException
                ? Refusal.tooLarge(route.mostBytes())
                : Exchange.bad("the body", "it did not come whole");
    }

    private static byte[] plain(Exchange exchange, byte[] bytes, int most) {
        String coding = exchange.header(HttpHeader.CONTENT_ENCODING);
        if (coding == null || coding.equalsIgnoreCase("identity")) {
            return bytes;
        }
        if (coding.equalsIgnoreCase("gzip")) {
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
        throw new Refusal(
                415, "the request cannot be taken", "Content-Encoding", "it is not known here", "send gzip or plain");
    }

    private void refuse(RuntimeException e, @Nullable Exchange exchange, Response response, Callback callback) {
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
