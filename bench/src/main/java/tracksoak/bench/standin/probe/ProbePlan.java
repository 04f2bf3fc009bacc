package tracksoak.bench.standin.probe;

import java.util.OptionalDouble;
import java.util.TreeMap;

/**
 * Which stop is tried next: longer ones until audio is lost, then the middle between what was held and what was not, then the longest that was
 * held again until it has been held often enough. Where audio was lost only once, that stop is tried once more; held then, it
 * bounds nothing, and longer ones are tried. Pure; confined to one thread. Lengths in s.
 */
public final class ProbePlan {

    private static final double STEP = 1.5;
    private static final double FINEST_S = 0.02;
    private static final int TIMES = 3;
    private static final int MOST_TRIES = 60;

    private final double firstS;
    private final double longestS;
    private final double within;
    private final TreeMap<Double, Integer> held = new TreeMap<>();
    private OptionalDouble lost = OptionalDouble.empty();
    private int losses;
    private boolean confirming;
    private int tries;

    /**
     * @param firstS the first stop
     * @param longestS no stop is longer
     * @param within the bounds are brought together to within this part of the upper one, and at least {@value #FINEST_S} s
     */
    public ProbePlan(double firstS, double longestS, double within) {
        this.firstS = firstS;
        this.longestS = longestS;
        this.within = within;
    }

    /** The next stop; empty where nothing is left to try. */
    public OptionalDouble next() {
        if (tries >= MOST_TRIES) {
            return OptionalDouble.empty();
        }
        OptionalDouble low = heldS();
        if (lost.isEmpty()) {
            if (low.isEmpty()) {
                return OptionalDouble.of(firstS);
            }
            return low.getAsDouble() >= longestS
                    ? again(low.getAsDouble())
                    : OptionalDouble.of(Math.min(longestS, low.getAsDouble() * STEP));
        }
        double high = lost.getAsDouble();
        double from = low.orElse(0);
        if (high - from > Math.max(FINEST_S, within * high)) {
            return OptionalDouble.of((from + high) / 2);
        }
        OptionalDouble again = low.isEmpty() ? OptionalDouble.empty() : again(from);
        if (again.isEmpty() && losses == 1 && !confirming) {
            confirming = true;
            return lost;
        }
        return again;
    }

    private OptionalDouble again(double s) {
        return held.getOrDefault(s, 0) < TIMES ? OptionalDouble.of(s) : OptionalDouble.empty();
    }

    /** A stop of this length was held without loss. */
    public void held(double s) {
        tries++;
        held.merge(s, 1, Integer::sum);
        if (confirming && s >= lost.orElse(Double.MAX_VALUE)) {
            confirming = false;
            losses = 0;
            lost = OptionalDouble.empty();
        }
    }

    /** With a stop of this length audio was lost, beyond doubt: it is not tried again for that. */
    public void surelyLost(double s) {
        losses++;
        lost(s);
    }

    /** With a stop of this length audio was lost. */
    public void lost(double s) {
        tries++;
        losses++;
        lost = OptionalDouble.of(Math.min(s, lost.orElse(Double.MAX_VALUE)));
    }

    /** It could not be told: tried again, but not for ever. */
    public void unclear() {
        tries++;
    }

    /** The longest stop that was held and is shorter than every one that was not. */
    public OptionalDouble heldS() {
        Double low = lost.isEmpty() ? (held.isEmpty() ? null : held.lastKey()) : held.lowerKey(lost.getAsDouble());
        return low == null ? OptionalDouble.empty() : OptionalDouble.of(low);
    }

    /** The shortest stop with which audio was lost. */
    public OptionalDouble lostS() {
        return lost;
    }
}
