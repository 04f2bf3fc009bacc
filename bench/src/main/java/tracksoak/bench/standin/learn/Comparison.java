package tracksoak.bench.standin.learn;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.learn.Compared.Alike;
import tracksoak.profiles.base.Count;

/**
 * Two recordings on a stand-in held against each other: of a recorder and of the bench that plays it, of two recorders, of one recorder
 * with all tracks and with half.
 *
 * @param habits each of them in both, in their usual order
 * @param buffers how the buffer depends on the number of tracks; null where only one was measured
 * @param doubts what makes the other doubtful, one sentence each
 * @param traceSha256 of the other trace, in hexadecimal digits
 */
public record Comparison(List<Compared> habits, @Nullable Buffers buffers, List<String> doubts, String traceSha256) {

    /** Numbers of tracks that are closer than this show nothing. */
    private static final double LEAST_RATIO = 1.3;
    /** Below a half, so that no buffer is near to both; as whole chunks are held, none is exactly what it should be. */
    private static final double NEAR = 0.4;

    public Comparison {
        habits = List.copyOf(habits);
        doubts = List.copyOf(doubts);
    }

    /**
     * How two buffers stand to each other.
     *
     * @param tracks how many were recorded here, and there
     * @param here the bounds in words
     * @param share what follows
     */
    public record Buffers(int tracks, int otherTracks, String here, String there, Share share) {}

    /** Whether tracks share a buffer. */
    public enum Share {
        PER_TRACK,
        SHARED,
        UNKNOWN
    }

    /** Holds one against the other. */
    public static Comparison of(
            Pattern here, @Nullable BufferFound buffer, Pattern there, @Nullable BufferFound otherBuffer) {
        return new Comparison(
                Compared.of(here, there),
                buffer == null || otherBuffer == null ? null : buffers(here, buffer, there, otherBuffer),
                there.doubts(),
                there.traceSha256());
    }

    private static Buffers buffers(Pattern here, BufferFound buffer, Pattern there, BufferFound otherBuffer) {
        int tracks = here.tracks().orElse(here.streams());
        int otherTracks = there.tracks().orElse(there.streams());
        return new Buffers(
                tracks,
                otherTracks,
                LearnedSession.bounds(buffer),
                LearnedSession.bounds(otherBuffer),
                share(buffer, tracks, otherBuffer, otherTracks));
    }

    /** One buffer for all holds as much longer as there are fewer tracks; one per track holds the same. */
    private static Share share(BufferFound buffer, int tracks, BufferFound other, int otherTracks) {
        boolean bounded = buffer.heldS().isPresent()
                && buffer.lostS().isPresent()
                && other.heldS().isPresent()
                && other.lostS().isPresent();
        double ratio = (double) otherTracks / tracks;
        if (!bounded || Math.max(ratio, 1 / ratio) < LEAST_RATIO) {
            return Share.UNKNOWN;
        }
        // here to there, at least and at most
        double least = other.heldS().orElse(0) / buffer.lostS().orElse(0);
        double most = other.lostS().orElse(0) / buffer.heldS().orElse(0);
        double near = Math.pow(Math.max(ratio, 1 / ratio), NEAR);
        boolean same = least <= near && most >= 1 / near;
        boolean inverse = least <= near / ratio && most >= 1 / ratio / near;
        return same == inverse ? Share.UNKNOWN : same ? Share.PER_TRACK : Share.SHARED;
    }

    /** In words, one sentence a line: what differs first. */
    public List<String> lines() {
        List<String> lines = new ArrayList<>();
        for (Compared one : habits) {
            if (one.alike() == Alike.DIFFERENT) {
                lines.add("Differs: " + one.habit().words() + ": " + one.here() + " here, " + one.there() + " there.");
            }
        }
        if (lines.isEmpty()) {
            lines.add("Nothing that can be told differs.");
        }
        doubts.forEach(doubt -> lines.add("Of the other recording: " + doubt));
        name("The same: ", one -> one.alike() == Alike.SAME, lines);
        name("Cannot be told of both: ", one -> one.alike() == Alike.UNKNOWN, lines);
        Buffers both = buffers;
        if (both != null) {
            lines.add("Buffer: with " + Count.of(both.tracks(), "track") + " here it " + both.here() + "; with "
                    + Count.of(both.otherTracks(), "track") + " there it " + both.there() + ". " + told(both));
        }
        return lines;
    }

    private void name(String what, Predicate<Compared> which, List<String> lines) {
        List<String> named =
                habits.stream().filter(which).map(one -> one.habit().words()).toList();
        if (!named.isEmpty()) {
            lines.add(what + Count.list(named) + ".");
        }
    }

    private static String told(Buffers both) {
        return switch (both.share()) {
            case PER_TRACK -> "It does not depend on the number of tracks: each track has its own.";
            case SHARED -> "All tracks share one: the figure counts for that number of tracks only.";
            case UNKNOWN ->
                both.tracks() == both.otherTracks()
                        ? "To see whether tracks share it, measure with half of them."
                        : "Whether tracks share it cannot be told from that.";
        };
    }
}
