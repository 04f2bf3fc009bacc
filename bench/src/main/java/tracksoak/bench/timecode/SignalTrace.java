package tracksoak.bench.timecode;

import java.util.List;

/**
 * What the test signal shows of one track.
 *
 * @param frames frames of the signal that were read; 0 where the track carries none
 * @param otherFrames frames of any other timecode
 * @param exact whether the track holds the very samples of the signal, but for level and rounding; else they came through
 *     something analogue, or were resampled
 * @param from first sample that is part of the signal
 * @param until the sample after the last that is
 * @param signalAtFrom place in the signal at {@code from}, in samples at the track's rate
 * @param ppm how much faster the track's clock counts than the signal's, in millionths; 0 where {@code exact}
 * @param bent whether a filter, or noise, moves the transitions so far that what is illegible may be its doing
 * @param breaks the first {@value #MOST_BREAKS} places where it is not as it should be
 * @param moreBreaks how many there are besides
 */
public record SignalTrace(
        long frames,
        long otherFrames,
        boolean exact,
        long from,
        long until,
        double signalAtFrom,
        double ppm,
        boolean bent,
        List<SignalBreak> breaks,
        long moreBreaks) {

    /** So many breaks are told one by one. */
    public static final int MOST_BREAKS = 1000;

    public SignalTrace {
        breaks = List.copyOf(breaks);
    }

    /** Whether the track carries the test signal. */
    public boolean found() {
        return frames > 0;
    }
}
