package tracksoak.bench.command.drill;

import java.util.Comparator;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Wrapped;
import tracksoak.bench.job.RunFolder;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.drill.DrillFindings;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillTrack;

/** A drill in a few lines for people. */
final class DrillSummary {

    private static final int MOST_TRACKS = 5;

    private DrillSummary() {}

    /** @param more whether to list tracks and files as well */
    static void print(DrillRecord record, RunFolder files, Console console, boolean more) {
        Wrapped out = new Wrapped(console);
        DrillFindings findings = record.findings();
        if (findings == null) {
            out.print("NOT DONE  ", record.stateReason());
        } else {
            out.print("DRILL DONE  ", findings.sentence());
            out.print("What to do now: ", findings.advice());
            if (more) {
                rest(record, findings, out);
            }
        }
        out.print("Report: ", files.page().toString());
        if (more) {
            out.print("Record: ", files.record().toString());
        }
        console.out().flush();
    }

    private static void rest(DrillRecord record, DrillFindings findings, Wrapped out) {
        out.print(
                "Files of the take that was cut off: ",
                Count.inDigits(findings.filesOpen(), "opens as it is", "open as they are")
                        + ", " + Count.number(findings.filesRepair()) + " must be repaired, "
                        + Count.inDigits(findings.filesEmpty(), "holds nothing", "hold nothing") + ", "
                        + Count.inDigits(findings.filesGone(), "is gone", "are gone"));
        record.tracks().stream()
                .sorted(Comparator.comparingDouble(DrillTrack::lostMs).reversed())
                .limit(MOST_TRACKS)
                .forEach(track -> out.print(
                        "Track " + track.firstTrack() + ": ",
                        Units.ms(track.keptMs()) + " recorded before the pull, " + Units.ms(track.readableMs())
                                + " can be read, " + Units.ms(track.lostMs()) + " lost"));
        int others = record.tracks().size() - MOST_TRACKS;
        if (others > 0) {
            out.print("", "And " + Count.inDigits(others, "track") + " that lost no more; the report lists all.");
        }
    }
}
