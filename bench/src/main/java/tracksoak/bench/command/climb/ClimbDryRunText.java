package tracksoak.bench.command.climb;

import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.Map;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.command.console.Fields;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.drives.DriveText;
import tracksoak.bench.job.ClimbDryRun;
import tracksoak.bench.job.ClimbTerms;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.DryRun;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;

/** What a climb would do, in words and as JSON. */
final class ClimbDryRunText {

    private ClimbDryRunText() {}

    static void print(ClimbDryRun would, PrintWriter out) {
        DriveFacts drive = would.drive();
        Session session = would.terms().base();
        Ladder ladder = would.room().ladder();
        out.println("Nothing is written now. This would happen:");
        new Fields(out)
                .add(
                        "drive",
                        Drives.name(drive) + ", " + DriveText.known(TradeName.orNull(drive.fileSystem())) + ", "
                                + DriveText.bytes(drive.freeBytes()) + " free")
                .addAll("it", would.behaves())
                .add("folder", DryRun.place(drive, would.folder()))
                .add("session", session.name() + ": " + TrackGroup.words(session.groups()))
                .add(
                        "tried",
                        ClimbLines.amount(ladder.value(1), ladder.kind()) + " to "
                                + ClimbLines.amount(ladder.value(ladder.size()), ladder.kind()) + ". "
                                + would.room().because())
                .add("", "fill until steady, " + Units.seconds(would.terms().fillCapS()) + " at most")
                .add(
                        "",
                        "about " + Count.inDigits(would.takes(), "take") + " of "
                                + Units.seconds(would.terms().shortTakeS()))
                .add("", Count.inDigits(would.checks(), "sound-check") + ", and more where one does not hold")
                .add(
                        "time",
                        "about " + Units.seconds(would.seconds()) + ", up to " + Units.seconds(would.fillSeconds())
                                + " for the fills, and as long as it takes to read the sound-checks back")
                .add(
                        "wear",
                        "at most about " + Units.bytes(would.writtenBytes())
                                + " written, if each number is confirmed at once")
                .add("stays free", Units.bytes(would.room().reserveBytes()))
                .add("kept here", would.records());
    }

    static Map<String, Object> json(ClimbDryRun would) {
        ClimbTerms terms = would.terms();
        Ladder ladder = would.room().ladder();
        Map<String, Object> json = JsonOption.document("climb-dry-run/1");
        json.put("drive", Drives.name(would.drive()));
        json.put("folder", would.folder());
        json.put("recordsFolder", would.records());
        json.put("session", terms.base().name());
        json.put("grows", ladder.kind());
        json.put("least", ladder.value(1));
        json.put("most", ladder.value(ladder.size()));
        json.put("mostBecause", would.room().because());
        Map<String, Object> todo = new LinkedHashMap<>();
        Plan check = terms.check();
        todo.put("shortTakeS", terms.shortTakeS());
        todo.put("fillCapS", terms.fillCapS());
        todo.put("takeBeforeS", check.takeBeforeS());
        todo.put("checkFillCapS", check.fillCapS());
        todo.put("takeAfterS", check.takeAfterS());
        json.put("plan", todo);
        json.put("takesAbout", would.takes());
        json.put("checksAtLeast", would.checks());
        json.put("secondsAbout", would.seconds());
        json.put("fillSecondsAtMost", would.fillSeconds());
        json.put("writtenBytesAtMostAbout", would.writtenBytes());
        json.put("reserveBytes", would.room().reserveBytes());
        return json;
    }
}
