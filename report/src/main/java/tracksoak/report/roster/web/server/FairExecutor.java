package tracksoak.report.roster.web.server;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.Executor;
import java.util.concurrent.RejectedExecutionException;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.NanoClock;

/**
 * Shares the server's work out among clients by what it costs: of those that wait, the one that has had the least time is served
 * next, so whoever asks for much waits for their own requests and not others for them. So many run at once in all and for one
 * client; the rest waits without a thread. Any thread.
 */
final class FairExecutor {

    private final Executor workers;
    private final NanoClock clock;
    private final int most;
    private final int mostOfOne;
    private final int mostWaiting;
    private final int mostWaitingOfOne;
    private final Map<String, Share> shares = new HashMap<>();
    private int running;
    private int waiting;
    private long usualNs;

    private static final class Share {
        private final Deque<Runnable> waiting = new ArrayDeque<>();
        private int running;
        private long usedNs;
    }

    private record Next(String client, Share share, Runnable work) {}

    /**
     * @param most that run at once in all
     * @param mostOfOne that run at once for one client
     * @param mostWaiting that wait in all
     * @param mostWaitingOfOne that wait for one client
     */
    FairExecutor(Executor workers, NanoClock clock, int most, int mostOfOne, int mostWaiting, int mostWaitingOfOne) {
        this.workers = workers;
        this.clock = clock;
        this.most = most;
        this.mostOfOne = mostOfOne;
        this.mostWaiting = mostWaiting;
        this.mostWaitingOfOne = mostWaitingOfOne;
    }

    /**
     * Does the work as soon as it is this client's turn.
     *
     * @return false where too much waits already; the work is then not done
     */
    boolean execute(String client, Runnable work) {
        synchronized (this) {
            Share share = shares.computeIfAbsent(client, unknown -> newcomer());
            if (waiting >= mostWaiting || share.waiting.size() >= mostWaitingOfOne) {
                forgetIdle(client, share);
                return false;
            }
            share.waiting.add(work);
            waiting++;
        }
        begin();
        return true;
    }

    /** Neither before nor behind those who are here already. */
    private Share newcomer() {
        Share share = new Share();
        share.usedNs = usualNs;
        return share;
    }

    private void begin() {
        for (Next next = next(); next != null; next = next()) {
            Next begun = next;
            try {
                workers.execute(() -> run(begun));
            } catch (RejectedExecutionException e) {
                over(begun, 0); // the server ends
            }
        }
    }

    private synchronized @Nullable Next next() {
        if (running >= most) {
            return null;
        }
        String client = null;
        Share least = null;
        for (Map.Entry<String, Share> each : shares.entrySet()) {
            Share share = each.getValue();
            boolean may = !share.waiting.isEmpty() && share.running < mostOfOne;
            if (may && (least == null || share.usedNs < least.usedNs)) {
                client = each.getKey();
                least = share;
            }
        }
        if (least == null || client == null) {
            return null;
        }
        running++;
        least.running++;
        waiting--;
        usualNs = Math.max(usualNs, least.usedNs);
        return new Next(client, least, least.waiting.remove());
    }

    private void run(Next next) {
        long fromNs = clock.nanoTime();
        try {
            next.work.run();
        } finally {
            over(next, clock.nanoTime() - fromNs);
            begin();
        }
    }

    private synchronized void over(Next next, long tookNs) {
        running--;
        next.share.running--;
        next.share.usedNs += tookNs;
        forgetIdle(next.client, next.share);
    }

    /** Who asks for nothing takes no memory. */
    private void forgetIdle(String client, Share share) {
        if (share.running == 0 && share.waiting.isEmpty()) {
            shares.remove(client);
        }
    }
}
