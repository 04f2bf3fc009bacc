package tracksoak.bench.inspect;

import java.io.IOException;
import tracksoak.bench.recording.SampleFile;
import tracksoak.bench.timecode.SignalProbe;
import tracksoak.bench.timecode.SignalTracker;

/**
 * Watches one track of a file for a test signal that begins, or shows, only later: about every second it is asked to look, less often where
 * it looked in vain. What it finds is followed from where it last saw nothing. One thread.
 */
final class LateSignal {

    private static final int EVERY_S = 1;
    private static final int SELDOM_S = 16;
    private static final int SLICE = 4096;

    private final SampleFile file;
    private final int channel;
    private final long base;
    private final int rate;
    private long next;
    private long before;
    private int everyS = EVERY_S;

    /** @param base samples of the track before the file */
    LateSignal(SampleFile file, int channel, long base) {
        this.file = file;
        this.channel = channel;
        this.base = base;
        rate = file.format().sampleRateHz();
    }

    /** Whether it is time to look. */
    boolean due(long at) {
        return at >= next;
    }

    /**
     * Looks; if the signal is there, the track follows it and knows all before this place.
     *
     * @param flat whether samples here lie as those of timecode do
     * @param here gives the samples of the file from there on
     */
    void look(ScannedTrack track, boolean flat, long at, SignalProbe.Track here) {
        if (flat) {
            closely(track, at, here);
        }
        before = at;
        next = at + (long) everyS * rate;
    }

    private void closely(ScannedTrack track, long at, SignalProbe.Track samples) {
        try {
            SignalProbe.Carries here = SignalProbe.at(rate, at, samples);
            if (here == SignalProbe.Carries.TEST_SIGNAL) {
                SignalTracker tracker = new SignalTracker(rate, file.format().step(), base + before);
                for (long from = before; from < at; from += SLICE) {
                    float[] values = file.values(channel, from, (int) Math.min(SLICE, at - from));
                    tracker.feed(values, values.length);
                }
                track.follow(tracker);
                return;
            }
            if (here == SignalProbe.Carries.OTHER_TIMECODE) {
                track.carriesOther();
            }
            everyS = here == SignalProbe.Carries.NOTHING_OF_IT ? everyS : Math.min(SELDOM_S, 2 * everyS);
        } catch (IOException refused) {
            // the pass over all of it says so
            everyS = SELDOM_S;
        }
    }
}
