package tracksoak.report.roster.web.server;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/**
 * Pages that wait for news, by server-sent events (HTML Living Standard, section 9.2). An event says only that something
 * changed and how far; pages then ask for what they show. A client that reads slowly gets the newest event once it can, and
 * never a queue, so memory stays flat. Holds no threads. Any thread.
 */
final class Live {

    private final int most;
    private final int mostOfOne;
    private final int mostOfToken;
    private final Set<Watcher> watchers = ConcurrentHashMap.newKeySet();
    private volatile boolean closed;

    /**
     * @param most that wait at a time
     * @param mostOfOne of them for one client
     * @param mostOfToken of them by one token, from wherever
     */
    Live(int most, int mostOfOne, int mostOfToken) {
        this.most = most;
        this.mostOfOne = mostOfOne;
        this.mostOfToken = mostOfToken;
    }

    /** How many pages wait. */
    int watchers() {
        return watchers.size();
    }

    /**
     * Keeps a request open.
     *
     * @param client whom it is for
     * @param holder id of the token it came in by, empty for none
     * @param mayStay asked again and again; the stream ends when it says no
     * @param mark how far the roster is; asked once the page waits, so that nothing comes between, and sent at once, so that a page that
     *     missed something learns of it
     * @throws Refusal where no more may wait
     */
    void join(
            String client,
            String holder,
            BooleanSupplier mayStay,
            Request request,
            Response response,
            Callback callback,
            Supplier<String> mark) {
        Watcher watcher = new Watcher(client, holder, mayStay, response, callback);
        enter(watcher);
        String now;
        try {
            now = mark.get();
        } catch (RuntimeException | Error e) {
            watcher.leave();
            throw e;
        }
        response.setStatus(200);
        response.getHeaders().put(HttpHeader.CONTENT_TYPE, "text/event-stream");
        request.addFailureListener(failure -> watcher.leave());
        watcher.write(event(now));
    }

    private synchronized void enter(Watcher watcher) {
        long ofOne = watchers.stream()
                .filter(one -> one.client.equals(watcher.client))
                .count();
        long ofToken = watcher.holder.isEmpty()
                ? 0
                : watchers.stream()
                        .filter(one -> one.holder.equals(watcher.holder))
                        .count();
        if (closed || watchers.size() >= most || ofOne >= mostOfOne || ofToken >= mostOfToken) {
            throw Refusal.busy();
        }
        watchers.add(watcher);
    }

    /** Lets those go who may not stay; whoever cannot be told apart may not. */
    void dismiss() {
        for (Watcher watcher : watchers) {
            boolean stays;
            try {
                stays = watcher.mayStay.getAsBoolean();
            } catch (RuntimeException unknown) {
                stays = false;
            }
            if (!stays) {
                watcher.finish();
            }
        }
    }

    /** Tells all that something changed. */
    void tell(String mark) {
        watchers.forEach(watcher -> watcher.send(event(mark)));
    }

    /** Shows that the server is there, and finds clients that are not. */
    void beat() {
        watchers.forEach(watcher -> watcher.send(":\n\n"));
    }

    /** Lets all go. */
    void close() {
        closed = true;
        watchers.forEach(Watcher::finish);
    }

    private static String event(String mark) {
        return "retry: 1000\nevent: changed\nid: " + mark + "\ndata: " + mark + "\n\n";
    }

    private final class Watcher implements Callback {

        private final String client;
        private final String holder;
        private final BooleanSupplier mayStay;
        private final Response response;
        private final Callback callback;
        /** From the start, for what it is told first comes first. */
        private boolean writing = true;

        private boolean gone;
        private boolean last;
        private String next = "";

        Watcher(String client, String holder, BooleanSupplier mayStay, Response response, Callback callback) {
            this.client = client;
            this.holder = holder;
            this.mayStay = mayStay;
            this.response = response;
            this.callback = callback;
        }

        void send(String text) {
            synchronized (this) {
                if (gone) {
                    return;
                }
                if (writing) {
                    // a beat never displaces news
                    next = text.startsWith(":") && !next.isEmpty() ? next : text;
                    return;
                }
                writing = true;
            }
            write(text);
        }

        void finish() {
            synchronized (this) {
                last = true;
                if (gone || writing) {
                    return;
                }
                writing = true;
            }
            end();
        }

        private void write(String text) {
            response.write(false, ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8)), this);
        }

        @Override
        public void succeeded() {
            String text;
            boolean over;
            synchronized (this) {
                text = next;
                next = "";
                over = last;
                writing = over || !text.isEmpty();
                if (!writing) {
                    return;
                }
            }
            if (over) {
                end();
            } else {
                write(text);
            }
        }

        @Override
        public void failed(Throwable failure) {
            leave();
            callback.failed(failure);
        }

        private void end() {
            leave();
            callback.succeeded();
        }

        void leave() {
            synchronized (this) {
                gone = true;
            }
            watchers.remove(this);
        }
    }
}
