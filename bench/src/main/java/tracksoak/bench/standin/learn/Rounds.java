package tracksoak.bench.standin.learn;

import java.util.List;
import java.util.OptionalDouble;
import tracksoak.bench.standin.learn.Evidence.Stop;

/** How often something happens that comes in rounds: several times close together, then a pause. Stateless. */
final class Rounds {

    private static final int FEWEST = 3;

    private Rounds() {}

    /**
     * The time from one round to the next in s, the one in the middle of all; empty where there are too few.
     *
     * @param times rising, in µs
     * @param stops what may have held it up
     */
    static OptionalDouble everyS(Column times, List<Stop> stops) {
        long longest = 0;
        for (int i = 1; i < times.size(); i++) {
            if (!held(times.get(i - 1), times.get(i), stops)) {
                longest = Math.max(longest, times.get(i) - times.get(i - 1));
            }
        }
        Column gaps = new Column();
        int start = 0;
        for (int i = 1; i < times.size(); i++) {
            if (times.get(i) - times.get(i - 1) > longest / 2) {
                if (!held(times.get(start), times.get(i), stops)) {
                    gaps.add(times.get(i) - times.get(start));
                }
                start = i;
            }
        }
        return gaps.size() < FEWEST - 1 ? OptionalDouble.empty() : OptionalDouble.of(gaps.median() / 1e6);
    }

    private static boolean held(long fromUs, long toUs, List<Stop> stops) {
        for (Stop stop : stops) {
            if (stop.atUs() < toUs && stop.endUs() + stop.lengthUs() > fromUs) {
                return true;
            }
        }
        return false;
    }
}
