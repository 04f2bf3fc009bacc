package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.page.DrillPage;
import tracksoak.report.record.facts.DrillRecord;
import tracksoak.report.record.json.DrillJson;

/**
 * Where one drill keeps its record and its sheet, on the host.
 *
 * @param run the folder as a run would use it
 */
public record DrillFiles(RunFiles run) {

    static final String RECORD = "drill.json";
    static final String SHEET = "drill.html";

    /** Refuses a folder that holds a run or a drill already, or that could not be made or written. Nothing is made yet. */
    public static DrillFiles in(Path folder) {
        DrillFiles files = new DrillFiles(RunFiles.in(folder));
        for (Path taken : new Path[] {files.record(), files.sheet()}) {
            if (Files.exists(taken)) {
                throw Problem.askedWrong(
                        Inert.quoted(taken) + " is there already, from another drill; it is never written over",
                        "name a new folder with --out");
            }
        }
        return files;
    }

    public Path record() {
        return run.folder().resolve(RECORD);
    }

    public Path sheet() {
        return run.folder().resolve(SHEET);
    }

    /** Saves the record alone, whole or not at all. */
    public void saveRecord(DrillRecord record) throws IOException {
        byte[] json = DrillJson.bytes(record);
        Files.createDirectories(run.folder());
        Path half = Files.createTempFile(run.folder(), ".drill-", ".half");
        try {
            Files.write(half, json);
            try {
                Files.move(half, record(), StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            } catch (AtomicMoveNotSupportedException e) {
                Files.move(half, record(), StandardCopyOption.REPLACE_EXISTING);
            }
        } finally {
            Files.deleteIfExists(half);
        }
    }

    /** Saves record and sheet. */
    void save(DrillRecord record) {
        try {
            saveRecord(record);
            DrillPage.save(sheet(), record);
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the drill's record and sheet cannot be written to " + Inert.quoted(run.folder()) + " ("
                            + RunFiles.reason(refused) + ")",
                    "make room there, or name another folder with --out");
        }
    }
}
