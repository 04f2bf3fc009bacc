package tracksoak.bench.command.qualify;

import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.Map;
import tracksoak.bench.command.console.Fields;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.drives.DriveText;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.DryRun;
import tracksoak.bench.phase.run.Budget;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Demand;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;

/** What a run would do, in words and as JSON. */
final class DryRunText {

    private DryRunText() {}

    static void print(DryRun would, PrintWriter out) {
        DriveFacts drive = would.drive();
        Session session = would.session();
        Plan plan = would.plan();
        out.println("Nothing is written now. This would happen:");
        Fields fields = new Fields(out)
                .add(
                        "drive",
                        Drives.name(drive) + ", " + DriveText.known(TradeName.orNull(drive.fileSystem())) + ", "
                                + DriveText.bytes(drive.freeBytes()) + " free")
                .addAll("it", would.behaves())
                .add("folder", would.place())
                .add(
                        "session",
                        session.name() + ": " + TrackGroup.words(session.groups()) + ", "
                                + Units.rate((double) Demand.of(session).bytesPerSecond()))
                .add(
                        "plan",
                        plan.name().word() + (plan.shortened() ? " (shortened: never counts as the full one)" : ""));
        steps(would, fields);
        fields.add("time", would.time())
                .add(
                        "wear",
                        "about " + Units.bytes(would.budget().usualBytes()) + " written, at most "
                                + Units.bytes(would.budget().mostBytes()))
                .add("stays free", Units.bytes(would.reserveBytes()))
                .add("kept here", would.records());
    }

    private static void steps(DryRun would, Fields fields) {
        Plan plan = would.plan();
        Budget budget = would.budget();
        if (plan.readsBack() && !plan.wholeSpace()) {
            fields.add("", "lay single blocks over all the free room");
        }
        if (plan.takeBeforeS() > 0) {
            fields.add("", "take for " + Units.seconds(plan.takeBeforeS()) + ", close");
        }
        if (plan.wholeSpace()) {
            fields.add("", "fill all that is free but the reserve: " + Units.bytes(budget.fillBytes()));
        } else if (plan.fillCapS() > 0) {
            fields.add(
                    "",
                    "fill with what the session writes, until steady: " + Units.bytes(budget.fillWantedBytes())
                            + " or a little more, " + Units.seconds(plan.fillCapS()) + " at most");
        }
        if (plan.fillCapS() > 0) {
            fields.add("", "read all of it back, delete it");
            if (plan.refillCapS() > 0) {
                fields.add(
                        "",
                        "write up to twice as much once more, for " + Units.seconds(plan.refillCapS())
                                + " at most, and delete it: a show writes where something was written before");
            }
        }
        if (plan.takeAfterS() > 0) {
            fields.add(
                    "",
                    "take for " + Units.seconds(plan.takeAfterS())
                            + (plan.takeMostS() > plan.takeAfterS()
                                    ? ", or for as long as it needs to settle what was seen, "
                                            + Units.seconds(plan.takeMostS()) + " at most"
                                    : "")
                            + rounds(would) + ", close");
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

    private static String rounds(DryRun would) {
        Budget budget = would.budget();
        return would.plan().wholeSpace() && budget.takesBytes() > budget.fillBytes()
                ? ", in rounds, as " + Units.bytes(budget.takesBytes()) + " do not fit the room"
                : "";
    }

    static Map<String, Object> json(DryRun would) {
        Session session = would.session();
        Plan plan = would.plan();
        Budget budget = would.budget();
        Map<String, Object> json = JsonOption.document("dry-run/1");
        json.put("drive", Drives.name(would.drive()));
        json.put("folder", would.folder());
        json.put("recordsFolder", would.records());
        json.put("session", session.name());
        json.put("bytesPerSecond", Demand.of(session).bytesPerSecond());
        Map<String, Object> todo = new LinkedHashMap<>();
        todo.put("name", plan.name().word());
        todo.put("shortened", plan.shortened());
        todo.put("takeBeforeS", plan.takeBeforeS());
        todo.put("fillCapS", plan.fillCapS());
        todo.put("takeAfterS", plan.takeAfterS());
        todo.put("takeMostS", plan.takeMostS());
        todo.put("wholeSpace", plan.wholeSpace());
        todo.put("copyS", plan.copyS());
        todo.put("playbackS", plan.playbackS());
        json.put("plan", todo);
        json.put("takesBytes", budget.takesBytes());
        json.put("longestTakesBytes", budget.longestTakesBytes());
        json.put("fillBytesAtMost", budget.fillBytes());
        json.put("copyBytesAtMost", budget.copyBytes());
        json.put("refillBytesAtMost", budget.refillBytes());
        json.put("mixBytes", budget.mixBytes());
        json.put("againBytesAtMost", budget.againBytes());
        json.put("writtenBytesAtMost", budget.mostBytes());
        json.put("reserveBytes", would.reserveBytes());
        return json;
    }
}
