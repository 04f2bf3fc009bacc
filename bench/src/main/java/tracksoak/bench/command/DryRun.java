package tracksoak.bench.command;

import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.Map;
import tracksoak.bench.phase.Budget;
import tracksoak.bench.phase.Plan;
import tracksoak.profiles.Session;
import tracksoak.report.record.DriveFacts;
import tracksoak.report.verdict.Units;

/**
 * What a run would do: where it would write, how much and for how long. Nothing is touched.
 *
 * @param drive the drive
 * @param folder the folder on it that would be made
 * @param records the folder on this computer for record and report
 * @param budget bytes of takes and fill
 * @param reserveBytes room that stays free
 */
record DryRun(
        DriveFacts drive, String folder, String records, Session session, Plan plan, Budget budget, long reserveBytes) {

    void print(PrintWriter out) {
        out.println("Nothing is written now. This would happen:");
        Fields fields = new Fields(out)
                .add(
                        "drive",
                        DriveText.name(drive) + ", " + DriveText.known(drive.fileSystem()) + ", "
                                + DriveText.bytes(drive.freeBytes()) + " free")
                .add("folder", folder + " is made there, and deleted again at the end")
                .add(
                        "session",
                        session.name() + ": " + SessionText.tracks(session.groups()) + ", "
                                + Units.rate((double) session.bytesPerSecond()))
                .add("plan", plan.name() + (plan.shortened() ? " (shortened: never counts as the full one)" : ""));
        steps(fields);
        fields.add(
                        "time",
                        "about " + Units.seconds(plan.takeBeforeS() + plan.takeAfterS())
                                + (plan.fillCapS() > 0
                                        ? ", and up to " + Units.seconds(plan.fillCapS()) + " for the fill"
                                        : "")
                                + ", then as long as it takes to read all of it back")
                .add("wear", "at most " + Units.bytes(budget.mostBytes()) + " written")
                .add("stays free", Units.bytes(reserveBytes))
                .add("kept here", records);
    }

    private void steps(Fields fields) {
        if (plan.takeBeforeS() > 0) {
            fields.add("", "take for " + Units.seconds(plan.takeBeforeS()) + ", close");
        }
        if (plan.fillCapS() > 0) {
            fields.add(
                    "",
                    "fill until steady: at least " + Units.bytes(budget.fillWantedBytes()) + ", at most "
                            + Units.bytes(budget.fillBytes()) + " or " + Units.seconds(plan.fillCapS()));
        }
        fields.add("", "take for " + Units.seconds(plan.takeAfterS()) + ", close");
        fields.add("", "read back all that was written");
    }

    Map<String, Object> json() {
        Map<String, Object> json = JsonOption.document("dry-run/1");
        json.put("drive", DriveText.name(drive));
        json.put("folder", folder);
        json.put("recordsFolder", records);
        json.put("session", session.name());
        json.put("bytesPerSecond", session.bytesPerSecond());
        Map<String, Object> todo = new LinkedHashMap<>();
        todo.put("name", plan.name());
        todo.put("shortened", plan.shortened());
        todo.put("takeBeforeS", plan.takeBeforeS());
        todo.put("fillCapS", plan.fillCapS());
        todo.put("takeAfterS", plan.takeAfterS());
        json.put("plan", todo);
        json.put("takesBytes", budget.takesBytes());
        json.put("fillBytesAtMost", budget.fillBytes());
        json.put("writtenBytesAtMost", budget.mostBytes());
        json.put("reserveBytes", reserveBytes);
        return json;
    }
}
