package tracksoak.bench.phase.timeleft;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * The mean rate over the last {@value #SECONDS} s of one phase, which a person can read: that of a second jumps. Where chunks are further
 * apart than that, it reaches back to the last that was carried, up to {@value #MOST_SECONDS} s. One thread.
 */
public final class RecentRate {

    private static final double SECONDS = 5;
    private static final double MOST_SECONDS = 60;

    private record Seen(double elapsedS, long bytes) {}

    private final Deque<Seen> seen = new ArrayDeque<>();

    /**
     * Notes how far it is, and tells the rate in bytes per second.
     *
     * @param elapsedS since the phase began, in s; negative while the drive rests before it
     * @param bytes carried in this phase
     */
    public double of(double elapsedS, long bytes) {
        if (elapsedS <= 0) {
            return 0;
        }
        if (seen.isEmpty()) {
            seen.addLast(new Seen(0, 0));
        }
        seen.addLast(new Seen(elapsedS, bytes));
        while (mayGo(elapsedS, bytes)) {
            seen.removeFirst();
        }
        Seen first = seen.getFirst();
        return (bytes - first.bytes()) / (elapsedS - first.elapsedS());
    }

    private boolean mayGo(double elapsedS, long bytes) {
        Seen second = seen.stream().skip(1).findFirst().orElseThrow();
        double withoutS = elapsedS - second.elapsedS();
        return withoutS >= (bytes > second.bytes() ? SECONDS : MOST_SECONDS);
    }
}
