package tracksoak.bench.timecode;

/**
 * Follows the test signal through something analogue or resampled, by its transitions: level, noise, polarity and a clock
 * that differs do not matter. What is missing is told to the millisecond. One thread.
 */
final class FollowedPath implements SignalPath {

    /** Smaller steps are taken for the path's own. */
    private static final double LEAST_STEP_S = 0.2e-3;

    /** Shorter illegible stretches are taken for noise. */
    private static final double LEAST_SPOILT_S = 0.5e-3;

    /** A transition found within so many bits of where it should be is the one meant; on a path that is quiet, within fewer. */
    private static final double NEAR_BITS = 0.2;

    private static final double NEAREST_BITS = 0.05;

    /** So many times further than transitions are off at the usual, none is by chance. */
    private static final double UNUSUAL = 6;

    private static final double LEARNING = 0.2;

    /** Where transitions are never nearer than so many bits at the usual, a filter moves them: then it makes some frames illegible as well. */
    private static final double BENT_BITS = 1 / 32.0;

    private static final int NEAR_MISSES = 16;
    private static final int FURTHEST_HALVES = 4 * TestSignal.HALVES;
    private static final double TAIL_MIDDLE = LtcWord.BITS - 7.5;
    private static final double HEAD_MIDDLE = 7.5;

    private final LtcDecoder decoder;
    private final Broken broken;
    private final double nominal;
    private final double leastStep;
    private final double leastSpoilt;

    private double bitLength;
    private double usuallyOff;
    private double leastOff;
    private double longest;
    private double oddLength;
    private double anchorBit;
    private double anchor;
    private double baseBit;
    private double base;
    private long lastEndBit;
    private double reached = -1;
    private long from;
    private double signalAtFrom;
    private double until;

    FollowedPath(int sampleRateHz, LtcDecoder decoder, Broken broken) {
        this.decoder = decoder;
        this.broken = broken;
        nominal = 2.0 * sampleRateHz / TestSignal.HALVES_PER_SECOND;
        leastStep = Math.max(3, LEAST_STEP_S * sampleRateHz);
        leastSpoilt = LEAST_SPOILT_S * sampleRateHz;
    }

    void begins(FrameSeen seen) {
        long bit = seen.number() * LtcWord.BITS;
        bitLength = seen.bitLength();
        oddLength = nominal;
        anchorAt(bit, seen);
        usuallyOff = NEAR_BITS * bitLength;
        leastOff = usuallyOff;
        lastEndBit = bit + LtcWord.BITS;
        until = seen.end();
        from = Math.max(0, Math.round(expected((double) bit)));
        signalAtFrom = bit * nominal;
    }

    private void anchorAt(long bit, FrameSeen seen) {
        anchorBit = bit + TAIL_MIDDLE;
        anchor = seen.tailLate() + anchorBit * nominal;
        baseBit = anchorBit;
        base = anchor;
    }

    private double expected(double bit) {
        return anchor + (bit - anchorBit) * bitLength;
    }

    @Override
    public void frame(FrameSeen seen) {
        long bit = seen.number() * LtcWord.BITS;
        double head = seen.headLate() + (bit + HEAD_MIDDLE) * nominal - expected(bit + HEAD_MIDDLE);
        double tail = seen.tailLate() + (bit + TAIL_MIDDLE) * nominal - expected(bit + TAIL_MIDDLE);
        boolean steps = Math.abs(tail) > leastStep || Math.abs(head) > leastStep;
        if (steps || bit != lastEndBit) {
            interrupted(bit, tail, steps, seen);
        }
        if (steps) {
            paceOf(seen);
            anchorAt(bit, seen);
        } else {
            anchorBit = bit + TAIL_MIDDLE;
            anchor = seen.tailLate() + anchorBit * nominal;
            learn();
            if (seen.end() == decoder.boundary(LtcWord.BITS)) {
                usuallyOff += (Math.min(off(bit), NEAR_BITS * bitLength) - usuallyOff) * LEARNING;
                leastOff = Math.min(leastOff, usuallyOff);
            }
        }
        lastEndBit = bit + LtcWord.BITS;
        until = seen.end();
        reached = -1;
    }

    /** How far the beginnings of bits of the last frame are from where they should be, in the square mean, in samples. */
    private double off(long bit) {
        double sum = 0;
        for (int i = 0; i < LtcWord.BITS; i++) {
            double off = decoder.boundary(i) - expected((double) bit + i);
            sum += off * off;
        }
        return Math.sqrt(sum / LtcWord.BITS);
    }

    /** The longer the stretch that is measured, the nearer the clocks' ratio. */
    private void learn() {
        double bits = anchorBit - baseBit;
        if (bits > longest) {
            longest = bits;
            bitLength = (anchor - base) / bits;
        }
    }

    /** Where bits are of another length from now on, every frame would step. */
    private void paceOf(FrameSeen seen) {
        if (Math.abs(seen.bitLength() - bitLength) * LtcWord.BITS > leastStep) {
            oddLength = further(bitLength, oddLength);
            bitLength = seen.bitLength();
            longest = 0;
        }
    }

    private double further(double one, double other) {
        return Math.abs(one - nominal) > Math.abs(other - nominal) ? one : other;
    }

    private void interrupted(long bit, double tail, boolean steps, FrameSeen seen) {
        double at = reached >= 0 ? reached : forward();
        double tailEnd = seen.tailLate() + (bit + TAIL_MIDDLE) * nominal + (LtcWord.BITS - TAIL_MIDDLE) * bitLength;
        double good = backward(bit + LtcWord.BITS, tailEnd);
        double between = good - at;
        if (steps) {
            boolean clean = between < 1.5 * bitLength;
            // where the signal is alike on both sides the place is not certain: the middle is nearest
            long first = Math.round(Math.min(at, (at + good) / 2));
            long next = clean ? first : Math.round(good);
            double signalAt = bit * nominal - (seen.begin() - next) * nominal / bitLength;
            broken.at(new SignalBreak(first, next, -tail, signalAt, false));
        } else if (between > leastSpoilt) {
            double signalAt = bit * nominal - (seen.begin() - good) * nominal / bitLength;
            broken.at(new SignalBreak(Math.round(at), Math.round(good), 0, signalAt, false));
        }
    }

    /** How far the transitions after the last frame are where they should be, in samples. */
    private double forward() {
        return walk(lastEndBit * 2, 1, lastEndBit, expected((double) lastEndBit));
    }

    /** From where on the transitions before the end of a frame are where they should be, in samples. */
    private double backward(long endBit, double end) {
        return walk(endBit * 2 - 1, -1, endBit, end);
    }

    /** Goes on from a place that is certain until two halves of bits close together are not as they should be. */
    private double walk(long firstHalf, int direction, long certainBit, double certain) {
        double reach = certain;
        double reachBeforeMiss = certain;
        int missedAt = -NEAR_MISSES;
        for (int i = 0; i < FURTHEST_HALVES; i++) {
            long half = firstHalf + (long) i * direction;
            if (half < 0) {
                break;
            }
            double time = certain + (half / 2.0 - certainBit) * bitLength;
            boolean transition = TestSignal.transition(half);
            if (nearEdge(time) != transition) {
                if (i - missedAt < NEAR_MISSES) {
                    return reachBeforeMiss;
                }
                missedAt = i;
                reachBeforeMiss = reach;
            } else if (transition) {
                reach = time;
            }
        }
        return reach;
    }

    private boolean nearEdge(double time) {
        double near = Math.max(NEAREST_BITS * bitLength, Math.min(NEAR_BITS * bitLength, UNUSUAL * usuallyOff));
        long low = decoder.oldestEdge();
        long high = decoder.edges();
        while (low < high) {
            long middle = (low + high) / 2;
            if (decoder.edgeAt(middle) < time - near) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low < decoder.edges() && decoder.edgeAt(low) <= time + near;
    }

    /** The transitions are forgotten sooner or later: before that, those that still fit are passed. */
    @Override
    public void waited(long now) {
        if (reached < 0 && now - until > 3.0 * LtcWord.BITS * bitLength) {
            reached = forward();
        }
    }

    @Override
    public void ends(long end) {
        until = Math.min((double) end, reached >= 0 ? reached : forward());
    }

    @Override
    public long from() {
        return from;
    }

    @Override
    public long until() {
        return Math.round(until);
    }

    @Override
    public double signalAtFrom() {
        return signalAtFrom;
    }

    /** Whether the path moves the transitions so far that what is illegible may be its doing. */
    boolean bent() {
        return leastOff > BENT_BITS * bitLength;
    }

    /** How much faster the track's clock counts than the signal's, in millionths; where that changes, the most. */
    double ppm() {
        return (further(bitLength, oddLength) / nominal - 1) * 1e6;
    }
}
