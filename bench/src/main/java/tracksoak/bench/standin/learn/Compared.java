package tracksoak.bench.standin.learn;

import java.util.ArrayList;
import java.util.List;

/**
 * One habit in two patterns: of a recorder and of the bench that plays it, of two recorders, of one recorder with all tracks and with half.
 *
 * @param habit which one
 * @param here its value in the first, in words
 * @param there in the second
 * @param alike whether it is the same
 */
public record Compared(Habit habit, String here, String there, Alike alike) {

    /** How two values stand to each other. */
    public enum Alike {
        SAME,
        DIFFERENT,
        /** One of them, or both, cannot be told. */
        UNKNOWN
    }

    /** All habits of two patterns, in their usual order. */
    public static List<Compared> of(Pattern one, Pattern other) {
        List<Compared> compared = new ArrayList<>();
        for (Habit habit : Habit.values()) {
            Learned here = one.learned(habit);
            Learned there = other.learned(habit);
            Alike alike = !here.told() || !there.told()
                    ? Alike.UNKNOWN
                    : habit.same(one, other) ? Alike.SAME : Alike.DIFFERENT;
            compared.add(new Compared(habit, here.value(), there.value(), alike));
        }
        return compared;
    }
}
