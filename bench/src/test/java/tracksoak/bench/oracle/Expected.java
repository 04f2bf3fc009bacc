package tracksoak.bench.oracle;

import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import tracksoak.profiles.Margins;
import tracksoak.profiles.Session;

/** What the brute-force queue says of a take, and how much of each limit that is. */
record Expected(double lostMs, double peakMs, int stalls, double longestMs, int overruns, double busy) {

    /** Of a take of so many s that was played to its end and not closed. */
    static Expected of(BruteQueue queue, double seconds) {
        return new Expected(
                IntStream.range(0, queue.lost.length)
                        .mapToDouble(queue::lostMs)
                        .max()
                        .orElse(0),
                queue.peakMs(),
                queue.stalls.size(),
                queue.stalls.stream()
                        .mapToDouble(wait -> (wait.toNs() - wait.fromNs()) / 1e6)
                        .max()
                        .orElse(0),
                queue.losses.size(),
                queue.busyNs / (double) Math.round(seconds * 1e9));
    }

    /** The largest share of a limit that take and close used, by the criteria of docs/method.md: above 1 is a miss. */
    double worstShare(Session session, double closeMs) {
        Margins asked = session.margins();
        return DoubleStream.of(
                        (peakMs + lostMs) / (session.bufferS() * 1000),
                        backlogShare(session),
                        asked.rate() * busy,
                        longestMs / asked.longestStallMs(),
                        closeMs / asked.closeMs())
                .max()
                .orElseThrow();
    }

    /** What the backlog alone used of the buffer and its margin: above 1 is a miss. */
    double backlogShare(Session session) {
        return session.margins().buffer() * peakMs / (session.bufferS() * 1000);
    }
}
