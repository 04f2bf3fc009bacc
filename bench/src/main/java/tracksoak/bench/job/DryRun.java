package tracksoak.bench.job;

import tracksoak.bench.phase.run.Budget;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
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
}
