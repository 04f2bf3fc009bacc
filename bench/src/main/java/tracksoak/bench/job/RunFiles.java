package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.page.ReportPage;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;

/**
 * Where one run keeps its record and its report, on the host.
 *
 * @param folder absolute; made when the first record is saved
 */
public record RunFiles(Path folder) {

    public static final String RECORD = "record.json";
    public static final String REPORT = "report.html";

    /** The folder a run gets among the records when none is asked for: {@code 2026-05-17-<id>}, the date in UTC. */
    public static Path usualFolder(Path records, EpochClock clock, UUID id) {
        String date = LocalDate.ofInstant(Instant.ofEpochMilli(clock.epochMillis()), ZoneOffset.UTC)
                .toString();
        return records.resolve(date + "-" + id);
    }

    /** Refuses a folder that holds a run already, or that could not be made or written. Nothing is made yet. */
    public static RunFiles in(Path folder) {
        RunFiles files = new RunFiles(folder.toAbsolutePath().normalize());
        for (Path taken : new Path[] {files.record(), files.report()}) {
            if (Files.exists(taken)) {
                throw Problem.askedWrong(
                        Inert.quoted(taken) + " is there already, from another run; it is never written over",
                        "name a new folder with --out");
            }
        }
        Path there = files.folder;
        Path parent;
        while (!Files.exists(there) && (parent = there.getParent()) != null) {
            there = parent;
        }
        if (!Files.isDirectory(there)) {
            throw Problem.askedWrong(Inert.quoted(there) + " is no folder", "name a new folder with --out");
        }
        if (!Files.isWritable(there)) {
            throw Problem.askedWrong(
                    "the folder " + Inert.quoted(there) + " may not be written", "name another folder with --out");
        }
        return files;
    }

    public Path record() {
        return folder.resolve(RECORD);
    }

    public Path report() {
        return folder.resolve(REPORT);
    }

    /** Saves record and report. */
    public void save(RunRecord record) {
        RecordFile.save(record(), record);
        saveReport(report(), record);
    }

    /** Saves the report alone. */
    public static void saveReport(Path file, RunRecord record) {
        saveReport(file, record, null);
    }

    /** The same with what became of the drive, where that is known. */
    public static void saveReport(Path file, RunRecord record, @Nullable DriveHistory history) {
        try {
            ReportPage.save(file, record, history);
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the report " + Inert.quoted(file) + " cannot be written (" + reason(refused) + ")",
                    "make room there; the record is complete: tracksoak report RECORD --out FOLDER renders it again");
        }
    }

    /** What the system said. */
    public static String reason(IOException refused) {
        return Inert.whole(refused.getClass().getSimpleName() + ": " + refused.getMessage());
    }
}
