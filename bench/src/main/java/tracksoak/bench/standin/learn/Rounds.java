package tracksoak.bench.standin.learn;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.LongPredicate;
import tracksoak.bench.standin.learn.Evidence.Stop;

/** How often something happens that comes in rounds: several times close together, then a pause. Stateless. */
final class Rounds {

    private static final int FEWEST = 2;
    private static final double AGREE = 0.75;
    private static final double ALIKE = 0.1;

    private Rounds() {}

    /** Whether a pause between two times is no longer or shorter than it should be. */
    private interface Clear {
        boolean between(long fromUs, long toUs);
    }

    /**
     * The time from one round to the next in s, the one in the middle of all; empty where there are too few. Pauses without a stop tell it;
     * where stops come more often than rounds, those over a stop that begin and end clear of any do, if most are alike.
     *
     * @param times rising, in µs
     * @param stops what may have held it up
     */
    static OptionalDouble everyS(Column times, List<Stop> stops) {
        Column without = pauses(times, (from, to) -> stops.stream().noneMatch(stop -> heldIn(stop, from, to)));
        if (without.size() >= FEWEST) {
            return OptionalDouble.of(without.median() / 1e6);
        }
        LongPredicate clear = us -> stops.stream().noneMatch(stop -> heldIn(stop, us, us));
        Column over = pauses(times, (from, to) -> clear.test(from) && clear.test(to));
        return over.size() >= FEWEST && alike(over) >= AGREE * over.size()
                ? OptionalDouble.of(over.median() / 1e6)
                : OptionalDouble.empty();
    }

    private static Column pauses(Column times, Clear clear) {
        long longest = 0;
        for (int i = 1; i < times.size(); i++) {
            if (clear.between(times.get(i - 1), times.get(i))) {
                longest = Math.max(longest, times.get(i) - times.get(i - 1));
            }
        }
        Column pauses = new Column();
        int start = 0;
        for (int i = 1; i < times.size(); i++) {
            if (times.get(i) - times.get(i - 1) > longest / 2) {
                if (clear.between(times.get(start), times.get(i))) {
                    pauses.add(times.get(i) - times.get(start));
                }
                start = i;
            }
        }
        return pauses;
    }

    private static boolean heldIn(Stop stop, long fromUs, long toUs) {
        return stop.atUs() < toUs && stop.endUs() + stop.lengthUs() > fromUs;
    }

    private static long alike(Column pauses) {
        long median = pauses.median();
        long alike = 0;
        for (int i = 0; i < pauses.size(); i++) {
            alike += Math.abs(pauses.get(i) - median) <= ALIKE * median ? 1 : 0;
        }
        return alike;
    }
}
