package tracksoak.bench.climb;

import java.util.Map;
import java.util.NavigableMap;
import java.util.OptionalInt;

/**
 * Between the highest rung that held and the lowest that did not. What held above a rung that did not is passed over: a
 * drive that is good again further up is trusted no further than its first weakness.
 *
 * @param holds highest rung known to hold below {@code fails}; one below the least if there is none
 * @param fails lowest rung known not to hold; one above the most if there is none
 */
record Bracket(int holds, int fails) {

    /** The bracket of what is known. */
    static Bracket of(NavigableMap<Integer, Boolean> known, int least, int most) {
        int fails = most + 1;
        int holds = least - 1;
        for (Map.Entry<Integer, Boolean> each : known.entrySet()) {
            if (!each.getValue()) {
                fails = each.getKey();
                break;
            }
            holds = each.getKey();
        }
        return new Bracket(holds, fails);
    }

    boolean closed() {
        return fails - holds == 1;
    }

    /** The next rung where each is looked at by itself: {@code start} first, from there up or down by one. */
    OptionalInt neighbour(int start) {
        if (closed()) {
            return OptionalInt.empty();
        }
        boolean inside = holds < start && start < fails;
        return OptionalInt.of(inside ? start : fails <= start ? fails - 1 : holds + 1);
    }

    /**
     * The rung to look at next, empty once the bracket is closed: {@code start} first, from there in steps of 1, 2, 4, 8… in
     * the direction in which the edge lies, and halving once that would leave the bracket. Few looks where the guess was good.
     */
    OptionalInt next(int start, int least, int most) {
        if (closed()) {
            return OptionalInt.empty();
        }
        if (holds < start && start < fails) {
            return OptionalInt.of(start);
        }
        boolean down = fails <= start;
        int step = Math.max(1, 2 * (down ? start - fails : holds - start));
        int stepped = down ? Math.max(least, start - step) : Math.min(most, start + step);
        return OptionalInt.of(holds < stepped && stepped < fails ? stepped : (holds + fails) >>> 1);
    }
}
