package tracksoak.bench.command.drill;

import java.io.PrintWriter;
import java.util.Comparator;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.DrillFiles;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.drill.DrillFindings;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.facts.drill.DrillTrack;

/** A drill in a few lines for people. */
final class DrillSummary {

    private static final int MOST_TRACKS = 5;

    private DrillSummary() {}

    static void print(DrillRecord record, DrillFiles files, Console console) {
        PrintWriter out = console.out();
        DrillFindings findings = record.findings();
        if (findings == null) {
            out.println("NOT DONE  " + Inert.whole(record.stateReason()));
        } else {
            out.println("DRILL DONE  " + Inert.whole(findings.sentence()));
            out.println("  " + Inert.whole(findings.advice()));
            out.println("  files of the take cut off: " + findings.filesOpen() + " open as they are, "
                    + findings.filesRepair() + " must be repaired, " + findings.filesEmpty() + " hold nothing, "
                    + findings.filesGone() + " are gone");
            record.tracks().stream()
                    .sorted(Comparator.comparingDouble(DrillTrack::lostMs).reversed())
                    .limit(MOST_TRACKS)
                    .forEach(track -> out.println("  track " + track.firstTrack() + ": "
                            + Units.ms(track.keptMs()) + " made and not lost before, " + Units.ms(track.readableMs())
                            + " can be read, "
                            + Units.ms(track.lostMs()) + " lost"));
            int more = record.tracks().size() - MOST_TRACKS;
            if (more > 0) {
                out.println("  and " + Count.inDigits(more, "track") + " that lost no more; all are on the sheet");
            }
        }
        out.println("  sheet: " + Inert.whole(files.sheet().toString()));
        out.println("  record: " + Inert.whole(files.record().toString()));
        out.flush();
    }
}
