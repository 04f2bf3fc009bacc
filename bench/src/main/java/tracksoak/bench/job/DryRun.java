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
 * @param behaves how a simulated drive behaves, one trait a text; empty for any other
 * @param budget bytes of takes and fill
 * @param reserveBytes room that stays free
 */
public record DryRun(
        DriveFacts drive,
        String folder,
        String records,
        List<String> behaves,
        Session session,
        Plan plan,
        Budget budget,
        long reserveBytes) {

    static DryRun of(Order order, DriveFacts drive, String folder, String records, List<String> behaves) {
        return new DryRun(
                drive,
                folder,
                records,
                behaves,
                order.session(),
                order.plan().on(drive),
                order.budget(drive),
                order.reserve(drive));
    }

    /** Where it would write, in words. */
    public String place() {
        return place(drive, folder);
    }

    /** Where a job would write that makes a folder on a drive, in words. */
    public static String place(DriveFacts drive, String folder) {
        return simulated(drive)
                ? "none: the drive is simulated, nothing is written"
                : folder + " is made on it, and deleted again at the end";
    }

    private static boolean simulated(DriveFacts drive) {
        return "simulated".equals(drive.bus());
    }

    /** How long it takes, in words: usually, and where the fill shows what only a longer take settles. */
    public String time() {
        return (simulated(drive) ? "hours pass in seconds, for the drive is simulated; on a real one: " : "")
                + realTime();
    }

    private String realTime() {
        List<String> parts = new ArrayList<>();
        double known = plan.takeBeforeS() + plan.takeAfterS() + plan.playbackS() + plan.refillCapS() + restsS();
        if (known > 0) {
            parts.add("about " + Units.seconds(known));
        }
        if (plan.fillCapS() > 0) {
            parts.add(capped(plan.fillCapS(), "fill"));
        }
        if (plan.copyS() > 0) {
            parts.add(capped(plan.copyCapS(), "copy"));
        }
        String last = "as long as it takes to read all of it back";
        double more = Math.max(0, plan.takeMostS() - plan.takeAfterS());
        boolean mayRest = plan.fillCapS() > 0 && plan.takeAfterS() > 0 && plan.firstIdleS() >= Plan.USUAL_IDLE_S;
        return (parts.isEmpty() ? last : String.join(", ", parts) + ", and " + last)
                + (mayRest && !plan.shortened()
                        ? "; if the fill shows pauses or slowness, up to "
                                + Units.seconds(more
                                        + Math.max(
                                                0,
                                                Plan.LONG_IDLE_S
                                                        - (plan.takeBeforeS() > 0 ? plan.idleS() : plan.firstIdleS())))
                                + " more"
                        : more > 0 ? "; up to " + Units.seconds(more) + " more until it is settled" : "");
    }

    private double restsS() {
        int takes = (plan.takeBeforeS() > 0 ? 1 : 0) + (plan.takeAfterS() > 0 ? 1 : 0);
        return takes == 0 ? 0 : plan.firstIdleS() + (takes - 1) * plan.idleS();
    }

    private static String capped(double capS, String what) {
        return capS < Plan.LONGEST_S
                ? "up to " + Units.seconds(capS) + " for the " + what
                : "as long as the " + what + " takes";
    }
}
