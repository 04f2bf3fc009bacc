package tracksoak.bench.timecode;

/**
 * A place where the test signal of a track is not what it should be.
 *
 * @param at first sample that is not as it should be, counted from the track's first
 * @param until the first sample after it that is again part of the signal; equal to {@code at} where nothing lies between
 * @param skipped samples of the signal that are left out here, beyond those between {@code at} and {@code until}: positive
 *     where audio is missing, negative where the signal steps back or something was put in; 0 where what lies between was
 *     only spoilt
 * @param signalAt place in the signal, in samples at the track's rate, at which it goes on
 * @param exact whether places and lengths are exact to the sample; else they are to the millisecond
 */
public record SignalBreak(long at, long until, double skipped, double signalAt, boolean exact) {

    /** Samples of the signal that are nowhere between what is before and what is after: left out, or spoilt. */
    public double missing() {
        return Math.max(0, until - at + skipped);
    }

    /** Samples by which the signal steps back, 0 where it does not. */
    public double back() {
        return Math.max(0, -(until - at + skipped));
    }
}
