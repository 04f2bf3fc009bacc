package tracksoak.bench.command.qualify;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tracksoak.bench.command.console.Fields;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.drives.DriveText;
import tracksoak.bench.command.session.SessionText;
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
                .add(
                        "plan",
                        plan.name().word() + (plan.shortened() ? " (shortened: never counts as the full one)" : ""));
        steps(fields);
        fields.add("time", time())
                .add("wear", "at most " + Units.bytes(budget.mostBytes()) + " written")
                .add("stays free", Units.bytes(reserveBytes))
                .add("kept here", records);
    }

    private String time() {
        double paced = plan.takeBeforeS() + plan.takeAfterS() + plan.playbackS();
        List<String> parts = new ArrayList<>();
        if (paced > 0) {
            parts.add("about " + Units.seconds(paced));
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

    private void steps(Fields fields) {
        if (plan.takeBeforeS() > 0) {
            fields.add("", "take for " + Units.seconds(plan.takeBeforeS()) + ", close");
        }
        if (plan.wholeSpace()) {
            fields.add("", "fill all that is free but the reserve: " + Units.bytes(budget.fillBytes()));
            fields.add("", "read all of it back, delete it");
        } else if (plan.fillCapS() > 0) {
            fields.add(
                    "",
                    "fill until steady: at least " + Units.bytes(budget.fillWantedBytes()) + ", at most "
                            + Units.bytes(budget.fillBytes()) + " or " + Units.seconds(plan.fillCapS()));
        }
        if (plan.takeAfterS() > 0) {
            fields.add("", "take for " + Units.seconds(plan.takeAfterS()) + rounds() + ", close");
        }
        if (plan.copyS() > 0) {
            fields.add(
                    "",
                    "copy the show on at full speed: at most " + Units.bytes(budget.copyBytes())
                            + (plan.copyCapS() < Plan.LONGEST_S ? " or " + Units.seconds(plan.copyCapS()) : ""));
        }
        fields.add("", "read back all that was written");
        if (plan.playbackS() > 0) {
            fields.add(
                    "",
                    "play all tracks for " + Units.seconds(plan.playbackS())
                            + (budget.mixBytes() > 0 ? " while the mix is written, close, read the mix back" : ""));
        }
    }

    private String rounds() {
        return plan.wholeSpace() && budget.takesBytes() > budget.fillBytes()
                ? ", in rounds, as " + Units.bytes(budget.takesBytes()) + " do not fit the room"
                : "";
    }

    Map<String, Object> json() {
        Map<String, Object> json = JsonOption.document("dry-run/1");
        json.put("drive", DriveText.name(drive));
        json.put("folder", folder);
        json.put("recordsFolder", records);
        json.put("session", session.name());
        json.put("bytesPerSecond", session.bytesPerSecond());
        Map<String, Object> todo = new LinkedHashMap<>();
        todo.put("name", plan.name().word());
        todo.put("shortened", plan.shortened());
        todo.put("takeBeforeS", plan.takeBeforeS());
        todo.put("fillCapS", plan.fillCapS());
        todo.put("takeAfterS", plan.takeAfterS());
        todo.put("wholeSpace", plan.wholeSpace());
        todo.put("copyS", plan.copyS());
        todo.put("playbackS", plan.playbackS());
        json.put("plan", todo);
        json.put("takesBytes", budget.takesBytes());
        json.put("fillBytesAtMost", budget.fillBytes());
        json.put("copyBytesAtMost", budget.copyBytes());
        json.put("mixBytes", budget.mixBytes());
        json.put("againBytesAtMost", budget.againBytes());
        json.put("writtenBytesAtMost", budget.mostBytes());
        json.put("reserveBytes", reserveBytes);
        return json;
    }
}
