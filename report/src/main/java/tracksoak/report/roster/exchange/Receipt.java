package tracksoak.report.roster.exchange;

import java.util.ArrayList;
import java.util.List;

/**
 * What became of events that were handed over. What is taken is safe: it is on the other side's disk.
 *
 * @param taken events that were new and are kept now
 * @param known events that were there already
 * @param refused events that cannot be taken, and why
 */
public record Receipt(int taken, int known, List<Refusal> refused) {

    /** Nothing handed over. */
    public static final Receipt NONE = new Receipt(0, 0, List.of());

    /**
     * An event that cannot be taken.
     *
     * @param event name of the event
     * @param why why not, for people
     */
    public record Refusal(String event, String why) {}

    public Receipt {
        refused = List.copyOf(refused);
    }

    /** The same and one event more that cannot be taken. */
    public Receipt refusing(String event, String why) {
        return and(new Receipt(0, 0, List.of(new Refusal(event, why))));
    }

    /** Both together. */
    public Receipt and(Receipt other) {
        List<Refusal> all = new ArrayList<>(refused);
        all.addAll(other.refused);
        return new Receipt(taken + other.taken, known + other.known, all);
    }
}
