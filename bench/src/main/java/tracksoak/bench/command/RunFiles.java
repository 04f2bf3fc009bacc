package tracksoak.bench.command;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.UUID;
import tracksoak.bench.recorder.EpochClock;
import tracksoak.report.page.ReportPage;
import tracksoak.report.record.RecordException;
import tracksoak.report.record.RecordFile;
import tracksoak.report.record.RunRecord;

/**
 * Where one run keeps its record and its report, on the host.
 *
 * @param folder exists and holds no other run
 */
record RunFiles(Path folder) {

    static final String RECORD = "record.json";
    static final String REPORT = "report.html";

    /** The folder a run gets among the records when none is asked for: {@code 2026-05-17-<id>}, the date in UTC. */
    static Path usualFolder(Path records, EpochClock clock, UUID id) {
        String date = LocalDate.ofInstant(Instant.ofEpochMilli(clock.epochMillis()), ZoneOffset.UTC)
                .toString();
        return records.resolve(date + "-" + id);
    }

    /** Makes the folder where it is missing; refuses one that holds a run already. */
    static RunFiles in(Path folder) {
        RunFiles files = new RunFiles(folder.toAbsolutePath().normalize());
        try {
            Files.createDirectories(files.folder);
        } catch (FileAlreadyExistsException noFolder) {
            throw Complaint.usage(Words.quoted(folder) + " is no folder", "name a new folder with --out");
        } catch (IOException refused) {
            throw Complaint.usage(
                    "the folder " + Words.quoted(folder) + " cannot be made (" + reason(refused) + ")",
                    "name a folder you may write in with --out");
        }
        for (Path taken : new Path[] {files.record(), files.report()}) {
            if (Files.exists(taken)) {
                throw Complaint.usage(
                        Words.quoted(taken) + " is there already, from another run; it is never written over",
                        "name a new folder with --out");
            }
        }
        if (!Files.isWritable(files.folder)) {
            throw Complaint.usage(
                    "the folder " + Words.quoted(folder) + " may not be written", "name another folder with --out");
        }
        return files;
    }

    Path record() {
        return folder.resolve(RECORD);
    }

    Path report() {
        return folder.resolve(REPORT);
    }

    /** Saves record and report. */
    void save(RunRecord record) {
        try {
            RecordFile.save(record(), record);
        } catch (RecordException refused) {
            throw Complaint.of(Exit.COULD_NOT_RUN, refused);
        }
        saveReport(report(), record);
    }

    /** Saves the report alone. */
    static void saveReport(Path file, RunRecord record) {
        try {
            ReportPage.save(file, record);
        } catch (IOException refused) {
            throw Complaint.cannot(
                    "the report " + Words.quoted(file) + " cannot be written (" + reason(refused) + ")",
                    "make room there; the record is complete: tracksoak report RECORD --out FOLDER renders it again");
        }
    }

    /** What the system said. */
    static String reason(IOException refused) {
        return Words.plain(refused.getClass().getSimpleName() + ": " + refused.getMessage());
    }
}
