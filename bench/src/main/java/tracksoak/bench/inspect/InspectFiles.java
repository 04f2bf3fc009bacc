package tracksoak.bench.inspect;

import java.io.IOException;
import java.nio.file.Path;
import tracksoak.bench.job.RunFolder;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.page.InspectPage;
import tracksoak.report.record.facts.inspection.InspectionRecord;
import tracksoak.report.record.json.InspectionJson;

/** Where one inspection keeps its record and its page, on the host. */
public record InspectFiles(RunFolder folder) {

    /** Refuses a folder that holds an inspection or a run already, or that could not be made or written. Nothing is made yet. */
    static InspectFiles in(Path folder) {
        return new InspectFiles(RunFolder.in(folder, RunFolder.Kind.INSPECTION));
    }

    public Path record() {
        return folder.record();
    }

    public Path page() {
        return folder.page();
    }

    /** Saves record and page. */
    void save(InspectionRecord record) {
        try {
            AtomicFile.write(record(), InspectionJson.bytes(record));
            InspectPage.save(page(), record);
        } catch (IOException refused) {
            throw Problem.cannot(
                    "record and page cannot be written to " + Inert.quoted(folder.folder()) + " ("
                            + Problem.reason(refused) + ")",
                    "make room there, or name another folder with --out");
        }
    }
}
