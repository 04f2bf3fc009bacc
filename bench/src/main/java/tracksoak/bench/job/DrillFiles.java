package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Path;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.page.DrillPage;
import tracksoak.report.page.SheetFile;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.json.RecordFormats;

/** Where one drill keeps its record and its sheet, on the host. */
public record DrillFiles(RunFolder folder) {

    /** Refuses a folder that holds a run or a drill already, or that could not be made or written. Nothing is made yet. */
    static DrillFiles in(Path folder) {
        return new DrillFiles(RunFolder.in(folder, RunFolder.Kind.DRILL));
    }

    public Path record() {
        return folder.record();
    }

    public Path sheet() {
        return folder.page();
    }

    /** Saves the record alone, whole or not at all. */
    void saveRecord(DrillRecord record) throws IOException {
        AtomicFile.write(record(), RecordFormats.DRILL.bytes(record));
    }

    /** Saves record and sheet. */
    void save(DrillRecord record) {
        try {
            saveRecord(record);
            SheetFile.write(sheet(), DrillPage.render(record));
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the drill's record and sheet cannot be written to " + Inert.quoted(folder.folder()) + " ("
                            + Problem.reason(refused) + ")",
                    "make room there, or name another folder with --out");
        }
    }
}
