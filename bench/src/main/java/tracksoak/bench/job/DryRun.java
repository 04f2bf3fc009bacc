package tracksoak.bench.job;

import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.phase.run.Budget;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;

/**
 * What a run would do: where it would write, how much and for how long. Nothing is touched.
 *
 * @param drive the drive
 * @param folder the folder on it that would be made
 * @param records the folder on this computer for record and report
 * @param budget bytes of takes and fill
 * @param reserveBytes room that stays free
 */
public record DryRun(
        DriveFacts drive, String folder, String records, Session session, Plan plan, Budget budget, long reserveBytes) {

    static DryRun of(Order order, DriveFacts drive, String folder, String records) {
        return new DryRun(
                drive, folder, records, order.session(), order.plan(), order.budget(drive), order.reserve(drive));
    }

    /** How long it takes, in words. */
    public String time() {
        double paced = plan.takeBeforeS() + plan.takeAfterS() + plan.playbackS();
        List<String> parts = new ArrayList<>();
        if (paced > 0) {
            parts.add("about " + Units.seconds(paced)
                    + (plan.takeMostS() > plan.takeAfterS()
                            ? ", at most " + Units.seconds(paced + plan.takeMostS() - plan.takeAfterS())
                            : ""));
        }
        if (plan.fillCapS() > 0) {
            parts.add("up to " + Units.seconds(plan.fillCapS()) + " for the fill");
        }
        if (plan.copyS() > 0) {
            parts.add(
                    plan.copyCapS() < Plan.LONGEST_S
                            ? "up to " + Units.seconds(plan.copyCapS()) + " for the copy"
                            : "as long as the copy takes");
        }
        return String.join(", and ", parts) + ", then as long as it takes to read all of it back";
    }
}
