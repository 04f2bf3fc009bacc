package tracksoak.report.verdict;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.Session;
import tracksoak.profiles.StreamSpec;

/**
 * What a run made for one session can say of another. Lengths, margins, buffers and file systems are left out: they are
 * judged from the facts as they are. A session with some streams of another taken away, the rest alike, is the easier of
 * the two: what the harder one passed the easier passes, what the easier missed the harder misses.
 */
enum Carry {
    /** The same streams, written the same way. */
    SAME,
    /** The session judged asks less than the run did: passes carry over, misses do not. */
    EASIER,
    /** The session judged asks more than the run did: misses carry over, passes do not. */
    HARDER,
    /** Neither can be said. */
    OTHER;

    boolean passes() {
        return this == SAME || this == EASIER;
    }

    boolean misses() {
        return this == SAME || this == HARDER;
    }

    static Carry of(Session run, Session judged) {
        if (run.kind() != judged.kind()
                || run.layout() != judged.layout()
                || run.chunkBytes() != judged.chunkBytes()
                || run.writers() != judged.writers()
                || !run.mix().equals(judged.mix())) {
            return OTHER;
        }
        boolean easier = covers(run, judged);
        boolean harder = covers(judged, run);
        return easier ? (harder ? SAME : EASIER) : (harder ? HARDER : OTHER);
    }

    /** Whether {@code hard} asks at least as much of the drive as {@code easy} in every respect. */
    private static boolean covers(Session hard, Session easy) {
        return (hard.arrival() == Arrival.BURST || hard.arrival() == easy.arrival())
                && flushes(hard) >= flushes(easy)
                && hard.fileLimitBytes() <= easy.fileLimitBytes()
                && contains(hard.streams(), easy.streams());
    }

    private static double flushes(Session session) {
        return session.flushS() == 0 ? 0 : 1 / session.flushS();
    }

    private static boolean contains(List<StreamSpec> all, List<StreamSpec> part) {
        Map<List<Long>, Integer> left = new HashMap<>();
        for (StreamSpec stream : all) {
            left.merge(kind(stream), 1, Integer::sum);
        }
        for (StreamSpec stream : part) {
            if (left.merge(kind(stream), -1, Integer::sum) < 0) {
                return false;
            }
        }
        return true;
    }

    private static List<Long> kind(StreamSpec stream) {
        return List.of(stream.bytesPerSecond(), (long) stream.tracks());
    }
}
