package tracksoak.bench.command.console;

import java.util.ArrayDeque;
import java.util.Deque;
import tracksoak.bench.phase.timeleft.Progress;

/** The mean rate over the last {@value #SECONDS} s of a phase, which a person can read: that of a second jumps. One thread. */
final class RecentRate {

    private static final double SECONDS = 5;
    private static final double LEAST = 1;

    private record Seen(double elapsedS, long bytes) {}

    private final Deque<Seen> seen = new ArrayDeque<>();

    /** Notes it, and tells the rate in bytes per second. */
    double of(Progress progress) {
        Seen last = seen.peekLast();
        if (last != null && (progress.elapsedS() < last.elapsedS() || progress.bytes() < last.bytes())) {
            seen.clear();
        }
        seen.addLast(new Seen(progress.elapsedS(), progress.bytes()));
        while (seen.size() > 2 && progress.elapsedS() - second().elapsedS() >= SECONDS) {
            seen.removeFirst();
        }
        Seen first = seen.getFirst();
        double span = progress.elapsedS() - first.elapsedS();
        return span < LEAST ? progress.bytesPerSecond() : (progress.bytes() - first.bytes()) / span;
    }

    private Seen second() {
        return seen.stream().skip(1).findFirst().orElseThrow();
    }
}
