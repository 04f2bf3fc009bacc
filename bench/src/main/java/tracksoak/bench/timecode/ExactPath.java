package tracksoak.bench.timecode;

/**
 * Follows the test signal where the track holds its very samples, but for level, polarity and rounding: every sample is
 * compared. One thread.
 */
final class ExactPath implements SignalPath {

    /** What rounding may do: that of the signal's own file, at 16 bits, and that of the recording. */
    private static final double SOURCE_ROUNDING = 0.75 / (1 << 15);

    private static final double SLACK = 2;
    private static final int SURE_BITS = 4;
    private static final double LEAST_GAIN = 1e-3;
    private static final int BLOCK = 4096;

    private final TestSignal signal;
    private final RecentSamples recent;
    private final double step;
    private final Broken broken;
    private final float[] expected = new float[BLOCK];
    private final int sure;

    private double gain;
    private double tolerance;
    private long late;
    private long from;
    private long checked;
    private long signalAtFrom;
    private long firstBad = -1;

    ExactPath(TestSignal signal, RecentSamples recent, double step, Broken broken) {
        this.signal = signal;
        this.recent = recent;
        this.step = step;
        this.broken = broken;
        sure = (int) Math.ceil(signal.startOf(2 * SURE_BITS));
    }

    /** Whether a frame holds the very samples; if so it is followed from the first that does. */
    boolean begins(FrameSeen seen) {
        long shift = Math.round(seen.tailLate());
        long begin = (long) Math.ceil(seen.begin());
        long end = Math.min((long) Math.floor(seen.end()), recent.end());
        if (begin < recent.oldest() || end - begin < sure || !fits(shift, begin, end)) {
            return false;
        }
        late = shift;
        from = afterLastBad(shift, Math.max(recent.oldest(), shift), begin);
        signalAtFrom = from - shift;
        checked = end;
        return true;
    }

    /** Finds level and polarity, and whether every sample fits them. */
    private boolean fits(long shift, long begin, long end) {
        double product = 0;
        double power = 0;
        for (long at = begin; at < end; at += BLOCK) {
            int count = (int) Math.min(BLOCK, end - at);
            signal.fill(at - shift, expected, count);
            for (int i = 0; i < count; i++) {
                product += (double) expected[i] * recent.get(at + i);
                power += (double) expected[i] * expected[i];
            }
        }
        gain = product / power;
        tolerance = SOURCE_ROUNDING * Math.abs(gain) + 2 * step;
        if (Math.abs(gain) <= LEAST_GAIN || firstBad(shift, begin, end) < end) {
            return false;
        }
        // the less rounding, the fewer samples that fit by chance where something is missing
        tolerance = Math.min(tolerance, SLACK * worst(shift, begin, end) + 2 * step);
        return true;
    }

    private double worst(long shift, long begin, long end) {
        double worst = 0;
        for (long at = begin; at < end; at += BLOCK) {
            int count = (int) Math.min(BLOCK, end - at);
            signal.fill(at - shift, expected, count);
            for (int i = 0; i < count; i++) {
                worst = Math.max(worst, Math.abs(recent.get(at + i) - gain * expected[i]));
            }
        }
        return worst;
    }

    @Override
    public void frame(FrameSeen seen) {
        long shift = Math.round(seen.tailLate());
        long end = Math.min((long) Math.floor(seen.end()), recent.end());
        if (end <= checked) {
            return;
        }
        long begin = Math.max(checked, recent.oldest());
        long bad = firstBad >= 0 ? firstBad : firstBad(late, begin, end);
        if (bad == end) {
            checked = end;
            return;
        }
        long good = afterLastBad(shift, Math.max(firstBad, begin), end);
        if (end - good < sure) {
            firstBad = bad;
            return;
        }
        if (shift != late || good > bad) {
            long until = Math.max(bad, good);
            broken.at(new SignalBreak(bad, until, late - shift, until - shift, true));
        }
        late = shift;
        checked = end;
        firstBad = -1;
    }

    /** The samples since the last frame are dropped sooner or later: before that, those that still fit are passed. */
    @Override
    public void waited(long now) {
        if (firstBad < 0 && now - checked > RecentSamples.KEPT / 2) {
            long begin = Math.max(checked, recent.oldest());
            long bad = firstBad(late, begin, now);
            if (bad < now) {
                firstBad = bad;
            }
            checked = bad;
        }
    }

    @Override
    public void ends(long end) {
        checked = firstBad >= 0 ? firstBad : firstBad(late, Math.max(checked, recent.oldest()), end);
    }

    private long firstBad(long shift, long begin, long end) {
        for (long at = begin; at < end; at += BLOCK) {
            int count = (int) Math.min(BLOCK, end - at);
            signal.fill(at - shift, expected, count);
            for (int i = 0; i < count; i++) {
                if (bad(i, at)) {
                    return at + i;
                }
            }
        }
        return end;
    }

    private boolean bad(int i, long at) {
        // written so that a sample that is no number is bad
        return !(Math.abs(recent.get(at + i) - gain * expected[i]) <= tolerance);
    }

    private long afterLastBad(long shift, long begin, long end) {
        for (long until = end; until > begin; until -= BLOCK) {
            long at = Math.max(begin, until - BLOCK);
            int count = (int) (until - at);
            signal.fill(at - shift, expected, count);
            for (int i = count - 1; i >= 0; i--) {
                if (bad(i, at)) {
                    return at + i + 1;
                }
            }
        }
        return begin;
    }

    @Override
    public long from() {
        return from;
    }

    @Override
    public long until() {
        return checked;
    }

    @Override
    public double signalAtFrom() {
        return signalAtFrom;
    }
}
