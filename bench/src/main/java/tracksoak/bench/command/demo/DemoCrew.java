package tracksoak.bench.command.demo;

import java.util.List;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;

/** The drives of an invented touring theatre, and what its crew did with them in the past months. */
final class DemoCrew {

    static final String FIRST_TESTER = "Mira of the Lantern Wagon";
    static final String SECOND_TESTER = "Tomke of the Lantern Wagon";

    private static final Session USUAL = DemoSession.lanternWagon();
    private static final Session LARGE = DemoSession.harvestFair();

    /**
     * One run of one drive.
     *
     * @param tag what is written on it
     * @param model name of the simulated drive
     * @param number tells drives of one model apart
     * @param second whether the second tester ran it
     */
    record Turn(String tag, String model, int number, Plan plan, Session session, int daysAgo, boolean second) {}

    private DemoCrew() {}

    /** All runs, the oldest first. */
    static List<Turn> turns() {
        Plan sound = Plan.soundCheck(USUAL);
        return List.of(
                new Turn("W-07", "cliff-ssd", 1, sound, USUAL, 190, false),
                new Turn("W-03", "steady-stick", 3, sound, USUAL, 131, false),
                new Turn("W-08", "old-disk", 1, sound, USUAL, 118, true),
                new Turn("W-05", "hiccup-card", 1, sound, USUAL, 64, false),
                new Turn("W-01", "steady-ssd", 1, sound, LARGE, 51, false),
                new Turn("W-06", "steady-stick", 6, sound, USUAL, 47, true),
                new Turn("W-02", "steady-stick", 2, Plan.fullShow(USUAL), USUAL, 40, true),
                new Turn("W-09", "collecting-ssd", 1, sound, LARGE, 33, false),
                new Turn("W-07", "cliff-ssd", 1, sound, LARGE, 30, false),
                new Turn("W-04", "tidying-stick", 1, sound, USUAL, 26, true),
                new Turn("W-10", "steady-stick", 10, Plan.lineCheck(), USUAL, 19, false),
                new Turn("W-11", "steady-ssd", 11, sound, USUAL, 12, true),
                new Turn("W-11", "steady-stick", 12, sound, USUAL, 9, false),
                new Turn("W-02", "steady-stick", 2, Plan.lineCheck(), USUAL, 2, true),
                new Turn("W-01", "steady-ssd", 1, Plan.lineCheck(), USUAL, 1, false));
    }
}
