package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.page.ClimbPage;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.json.ClimbJson;

/**
 * Where one climb keeps its record, its page and the runs of its sound-checks, on the host.
 *
 * @param folder absolute; made when the first record is saved
 */
public record ClimbFiles(Path folder) {

    static final String RECORD = "climb.json";
    static final String PAGE = "climb.html";

    /** Refuses a folder that holds a climb or a run already, or that could not be made or written. */
    public static ClimbFiles in(Path asked) {
        Path folder = RunFiles.in(asked).folder();
        ClimbFiles files = new ClimbFiles(folder);
        for (Path taken : new Path[] {files.record(), files.page()}) {
            if (Files.exists(taken)) {
                throw Problem.askedWrong(
                        Inert.quoted(taken) + " is there already, from another climb; it is never written over",
                        "name a new folder with --out");
            }
        }
        return files;
    }

    public Path record() {
        return folder.resolve(RECORD);
    }

    public Path page() {
        return folder.resolve(PAGE);
    }

    /** A new folder for the run of a sound-check at so many tracks or Hz. */
    public RunFiles check(int value) {
        Path free = folder.resolve("check-" + value);
        for (int again = 2; Files.exists(free); again++) {
            free = folder.resolve("check-" + value + "-" + again);
        }
        return RunFiles.in(free);
    }

    /** Saves the record. */
    public void save(ClimbRecord record) {
        ClimbJson.save(record(), record);
    }

    /** Saves the page. */
    public void savePage(ClimbRecord record) {
        try {
            ClimbPage.save(page(), record);
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the page " + Inert.quoted(page()) + " cannot be written (" + RunFiles.reason(refused) + ")",
                    "make room there; the record is complete");
        }
    }
}
