package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.page.ReportPage;
import tracksoak.report.page.SheetFile;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;

/** Where one run keeps its record and its report, on the host. */
public record RunFiles(RunFolder folder) {

    /** Refuses a folder that holds a run already, or that could not be made or written. Nothing is made yet. */
    public static RunFiles in(Path folder) {
        return new RunFiles(RunFolder.in(folder, RunFolder.Kind.RUN));
    }

    public Path record() {
        return folder.record();
    }

    public Path report() {
        return folder.page();
    }

    /** Saves record and report. */
    public void save(RunRecord record) {
        saveRecord(record);
        saveReport(report(), record, null);
    }

    /** Saves the record alone. */
    void saveRecord(RunRecord record) {
        RecordFile.save(record(), record);
    }

    /**
     * Saves a report alone.
     *
     * @param history what became of the drive, null where that is not known
     */
    public static void saveReport(Path file, RunRecord record, @Nullable DriveHistory history) {
        try {
            SheetFile.write(file, ReportPage.render(record, history));
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the report " + Inert.quoted(file) + " cannot be written (" + Problem.reason(refused) + ")",
                    "make room there; the record is complete: tracksoak report RECORD --out FOLDER renders it again");
        }
    }
}
