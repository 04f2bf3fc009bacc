package tracksoak.bench.command.climb;

import java.io.PrintWriter;
import java.util.LinkedHashMap;
import java.util.Map;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.command.console.Fields;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.drives.DriveText;
import tracksoak.bench.command.session.SessionText;
import tracksoak.bench.job.ClimbRoom;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;

/**
 * What a climb would do: where it would write, how much and for how long. Nothing is touched.
 *
 * @param folder the folder on the drive that would be made
 * @param records the folder on this computer
 */
record ClimbDryRun(
        DriveFacts drive,
        String folder,
        String records,
        Session session,
        ClimbRoom room,
        ClimbOptions options,
        boolean proveAbove) {

    /** Short takes of a climb that does not begin far off: four for each number. */
    private static final int USUAL_TAKES_EACH = 4;

    private int numbers() {
        return options.onlyMargin ? 1 : 2;
    }

    private int takes() {
        return numbers() * USUAL_TAKES_EACH;
    }

    private int checks() {
        return numbers() * (proveAbove ? 2 : 1);
    }

    private double seconds() {
        Plan check = options.check();
        return takes() * options.shortTakeS() + checks() * (check.takeBeforeS() + check.takeAfterS());
    }

    private double fillSeconds() {
        return options.fillCapS() + checks() * options.check().fillCapS();
    }

    private long writtenBytes() {
        return room.fillBytes() + takes() * room.takeBytes() + checks() * room.checkBytes();
    }

    void print(PrintWriter out) {
        Ladder ladder = room.ladder();
        out.println("Nothing is written now. This would happen:");
        new Fields(out)
                .add(
                        "drive",
                        DriveText.name(drive) + ", " + DriveText.known(drive.fileSystem()) + ", "
                                + DriveText.bytes(drive.freeBytes()) + " free")
                .add("folder", folder + " is made there, and deleted again at the end")
                .add("session", session.name() + ": " + SessionText.tracks(session.groups()))
                .add(
                        "tried",
                        ClimbWatch.amount(ladder.value(1), ladder.kind()) + " to "
                                + ClimbWatch.amount(ladder.value(ladder.size()), ladder.kind()) + ". "
                                + room.because())
                .add("", "fill until steady, " + Units.seconds(options.fillCapS()) + " at most")
                .add("", "about " + Count.inDigits(takes(), "take") + " of " + Units.seconds(options.shortTakeS()))
                .add("", Count.inDigits(checks(), "sound-check") + ", and more where one does not hold")
                .add(
                        "time",
                        "about " + Units.seconds(seconds()) + ", up to " + Units.seconds(fillSeconds())
                                + " for the fills, and as long as it takes to read the sound-checks back")
                .add(
                        "wear",
                        "at most about " + Units.bytes(writtenBytes())
                                + " written, if each number is confirmed at once")
                .add("stays free", Units.bytes(room.reserveBytes()))
                .add("kept here", records);
    }

    Map<String, Object> json() {
        Ladder ladder = room.ladder();
        Map<String, Object> json = JsonOption.document("climb-dry-run/1");
        json.put("drive", DriveText.name(drive));
        json.put("folder", folder);
        json.put("recordsFolder", records);
        json.put("session", session.name());
        json.put("grows", ladder.kind());
        json.put("least", ladder.value(1));
        json.put("most", ladder.value(ladder.size()));
        json.put("mostBecause", room.because());
        Map<String, Object> todo = new LinkedHashMap<>();
        Plan check = options.check();
        todo.put("shortTakeS", options.shortTakeS());
        todo.put("fillCapS", options.fillCapS());
        todo.put("takeBeforeS", check.takeBeforeS());
        todo.put("checkFillCapS", check.fillCapS());
        todo.put("takeAfterS", check.takeAfterS());
        json.put("plan", todo);
        json.put("takesAbout", takes());
        json.put("checksAtLeast", checks());
        json.put("secondsAbout", seconds());
        json.put("fillSecondsAtMost", fillSeconds());
        json.put("writtenBytesAtMostAbout", writtenBytes());
        json.put("reserveBytes", room.reserveBytes());
        return json;
    }
}
