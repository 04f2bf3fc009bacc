package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.page.ClimbPage;
import tracksoak.report.page.SheetFile;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.json.RecordFormats;

/** Where one climb keeps its record, its page and the runs of its sound-checks, on the host. */
public record ClimbFiles(RunFolder folder) {

    /** Refuses a folder that holds a climb or a run already, or that could not be made or written. Nothing is made yet. */
    static ClimbFiles in(Path folder) {
        return new ClimbFiles(RunFolder.in(folder, RunFolder.Kind.CLIMB));
    }

    public Path record() {
        return folder.record();
    }

    public Path page() {
        return folder.page();
    }

    /** A new folder for the run of a sound-check at so many tracks or Hz. */
    RunFiles check(int value) {
        Path free = folder.folder().resolve("check-" + value);
        for (int again = 2; Files.exists(free); again++) {
            free = folder.folder().resolve("check-" + value + "-" + again);
        }
        return RunFiles.in(free);
    }

    /** Saves the record. */
    void save(ClimbRecord record) {
        RecordFormats.CLIMB.save(record(), record);
    }

    /** Saves the page. */
    void savePage(ClimbRecord record) {
        try {
            SheetFile.write(page(), ClimbPage.render(record));
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the page " + Inert.quoted(page()) + " cannot be written (" + Problem.reason(refused) + ")",
                    "make room there; the record is complete");
        }
    }
}
