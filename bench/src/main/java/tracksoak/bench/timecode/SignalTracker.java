package tracksoak.bench.timecode;

import java.util.ArrayList;
import java.util.List;

/**
 * Follows the test signal through one track and finds every place where samples are missing, repeated or spoilt. Where the
 * track holds the signal's very samples each one is compared, so places are exact; elsewhere the transitions are followed.
 * Memory does not grow. One thread.
 */
public final class SignalTracker {

    private static final int SLICE = 2048;
    private static final int TRIED_FRAMES = 12;

    private final int sampleRateHz;
    private final LtcDecoder decoder;
    private final RecentSamples recent;
    private final List<SignalBreak> breaks = new ArrayList<>();
    private final List<FrameSeen> tried = new ArrayList<>();
    private final ExactPath exact;
    private final FollowedPath followed;

    private SignalPath path = SignalPath.NONE;
    private long frames;
    private long otherFrames;
    private long moreBreaks;

    /**
     * @param sampleRateHz of the track
     * @param step smallest step between two values of a sample as stored, full scale being 1
     */
    public SignalTracker(int sampleRateHz, double step) {
        this(sampleRateHz, step, 0);
    }

    /** @param first number of the first sample that will be fed, where the track's beginning is not */
    public SignalTracker(int sampleRateHz, double step, long first) {
        this.sampleRateHz = sampleRateHz;
        recent = new RecentSamples(first);
        decoder = new LtcDecoder(sampleRateHz, first, this::frame);
        exact = new ExactPath(new TestSignal(sampleRateHz), recent, step, this::broken);
        followed = new FollowedPath(sampleRateHz, decoder, this::broken);
    }

    /** Takes the next samples of the track. */
    public void feed(float[] samples, int count) {
        for (int from = 0; from < count; from += SLICE) {
            int slice = Math.min(SLICE, count - from);
            recent.add(samples, from, slice);
            decoder.feed(samples, from, slice);
            path.waited(recent.end());
        }
    }

    private void frame(long word) {
        if (!TestSignal.isOwn(word)) {
            otherFrames++;
            return;
        }
        frames++;
        FrameSeen seen = FrameSeen.of(word, decoder, sampleRateHz);
        if (path == SignalPath.NONE) {
            decide(seen);
        } else {
            path.frame(seen);
        }
    }

    private void decide(FrameSeen seen) {
        tried.add(seen);
        if (exact.begins(seen)) {
            path = exact;
        } else if (tried.size() == TRIED_FRAMES) {
            beginFollowing();
        }
    }

    private void beginFollowing() {
        path = followed;
        followed.begins(tried.get(0));
        tried.subList(1, tried.size()).forEach(followed::frame);
    }

    private void broken(SignalBreak one) {
        if (breaks.size() < SignalTrace.MOST_BREAKS) {
            breaks.add(one);
        } else {
            moreBreaks++;
        }
    }

    /** What it came to; nothing may be fed afterwards. */
    public SignalTrace end() {
        if (path == SignalPath.NONE && !tried.isEmpty()) {
            beginFollowing();
        }
        path.ends(recent.end());
        return new SignalTrace(
                frames,
                otherFrames,
                path == exact,
                path.from(),
                path.until(),
                path.signalAtFrom(),
                path == followed ? followed.ppm() : 0,
                path == followed && followed.bent(),
                breaks,
                moreBreaks);
    }
}
