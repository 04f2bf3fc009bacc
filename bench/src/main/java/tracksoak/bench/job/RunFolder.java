package tracksoak.bench.job;

import java.io.IOException;
import java.nio.file.FileStore;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.UUID;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;

/**
 * A folder of this computer for what one run, climb or drill keeps: its record and its page.
 *
 * @param folder absolute; made when the first record is saved
 */
public record RunFolder(Path folder, Kind kind) {

    private static final long LEAST_ROOM_BYTES = 8_000_000;

    /** What is kept in it. */
    public enum Kind {
        /** A run. */
        RUN("record.json", "report.html"),
        /** A climb; its sound-checks are runs in folders below. */
        CLIMB("climb.json", "climb.html"),
        /** A drill. */
        DRILL("drill.json", "drill.html"),
        /** An inspection of a recording. */
        INSPECTION("inspection.json", "inspection.html");

        private final String record;
        private final String page;

        Kind(String record, String page) {
            this.record = record;
            this.page = page;
        }

        /** Name of the file of its record. */
        public String record() {
            return record;
        }

        /** Name of the file of its page. */
        public String page() {
            return page;
        }
    }

    /** The folder a run gets among the records when none is asked for: {@code 2026-05-17-<id>}, the date in UTC. */
    public static Path usual(Path records, EpochClock clock, UUID id) {
        String date = LocalDate.ofInstant(Instant.ofEpochMilli(clock.epochMillis()), ZoneOffset.UTC)
                .toString();
        return records.resolve(date + "-" + id);
    }

    /**
     * Refuses a folder that holds a run, or another of the kind, already, or that could not be made or written. Nothing is
     * made yet.
     */
    public static RunFolder in(Path asked, Kind kind) {
        RunFolder folder = new RunFolder(asked.toAbsolutePath().normalize(), kind);
        folder.refuseOther(Kind.RUN);
        folder.refuseUnwritable();
        folder.refuseOther(kind);
        return folder;
    }

    public Path record() {
        return folder.resolve(kind.record());
    }

    public Path page() {
        return folder.resolve(kind.page());
    }

    private void refuseOther(Kind other) {
        for (String name : new String[] {other.record(), other.page()}) {
            Path taken = folder.resolve(name);
            if (Files.exists(taken)) {
                throw Problem.askedWrong(
                        Inert.quoted(taken) + " is there already, from another " + KebabCase.of(other)
                                + "; it is never written over",
                        "name a new folder with --out");
            }
        }
    }

    private void refuseUnwritable() {
        Path there = existing(folder);
        if (!Files.isDirectory(there)) {
            throw Problem.askedWrong(Inert.quoted(there) + " is no folder", "name a new folder with --out");
        }
        try {
            Files.delete(Files.createTempFile(there, ".tracksoak-", ""));
        } catch (IOException refused) {
            throw Problem.askedWrong(
                    "the folder " + Inert.quoted(there) + " may not be written", "name another folder with --out");
        }
        long room = room(there);
        if (room < LEAST_ROOM_BYTES) {
            throw Problem.askedWrong(
                    "only " + Units.bytes(room) + " are free in " + Inert.quoted(there)
                            + ", and record and report may take " + Units.bytes(LEAST_ROOM_BYTES),
                    "make room there, or name another folder with --out");
        }
    }

    /** In bytes; the largest there is where the file system does not tell. */
    private static long room(Path folder) {
        try {
            FileStore store = Files.getFileStore(folder);
            return store.getTotalSpace() > 0 ? store.getUsableSpace() : Long.MAX_VALUE;
        } catch (IOException notTold) {
            return Long.MAX_VALUE;
        }
    }

    /** The folder itself, or the nearest above it that is there. */
    static Path existing(Path folder) {
        Path at = folder;
        Path parent;
        while (!Files.exists(at) && (parent = at.getParent()) != null) {
            at = parent;
        }
        return at;
    }
}
