package tracksoak.report.roster;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.exchange.Tally;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.Salvage;

/**
 * Makes a damaged SQLite roster anew: the damaged file is put aside, never deleted; what can be read of it is entered again, and so are the run
 * records of real drives of this computer that are not in it. What others had comes back with the next sync. Stateless.
 */
public final class RosterRescue {

    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("yyyyMMdd-HHmmss", Locale.ROOT).withZone(ZoneOffset.UTC);
    private static final int DEEPEST = 4;
    private static final int MOST_RECORDS = 100_000;

    /**
     * What came of it.
     *
     * @param aside where the damaged file lies now
     * @param read what could be read of it
     * @param records run records of this computer entered again
     * @param unread files of run records that could not be read
     * @param tally what the new file holds, looked over from its first event to its last
     */
    public record Result(Path aside, Salvage.Result read, int records, List<Path> unread, Tally tally) {
        public Result {
            unread = List.copyOf(unread);
        }
    }

    private RosterRescue() {}

    /**
     * What is wrong with a roster's file.
     *
     * @return none where the file is whole
     * @throws Problem if it is locked, cannot be read, or is no roster
     */
    public static Optional<String> damage(Path file) {
        return Salvage.damage(file);
    }

    /**
     * Rescues a roster that nobody has open.
     *
     * @param file the damaged file
     * @param records folder with the {@code record.json} of this computer's runs, at any depth up to 4; null for none
     * @param key signs the records entered again
     * @throws Problem if the file is not there, is no roster, or cannot be put aside
     */
    public static Result rescue(Path file, @Nullable Path records, TesterKey key, InstantSource clock) {
        Salvage.check(file);
        Path aside = putAside(file, clock);
        try (Roster roster = Roster.open(RosterPlace.sqlite(file), clock)) {
            Salvage.Result read = Salvage.read(aside, roster::take);
            List<Path> unread = new ArrayList<>();
            int entered = records == null ? 0 : enter(roster, records, key, unread);
            return new Result(aside, read, entered, unread, Tally.of(roster.peer()));
        }
    }

    private static Path putAside(Path file, InstantSource clock) {
        Path aside = file.resolveSibling(file.getFileName() + ".damaged-" + STAMP.format(clock.instant()));
        try {
            if (Files.exists(aside)) {
                throw new IOException(aside + " is there already");
            }
            for (String part : new String[] {"-wal", "-shm", ""}) {
                Path from = file.resolveSibling(file.getFileName() + part);
                if (part.isEmpty() || Files.exists(from)) {
                    Files.move(from, aside.resolveSibling(aside.getFileName() + part));
                }
            }
            return aside;
        } catch (IOException e) {
            throw Kind.UNREACHABLE.problem(
                    "the roster cannot be rescued",
                    file + " cannot be put aside: " + Problem.reason(e),
                    "end other programs that use it, and try again",
                    e);
        }
    }

    private static int enter(Roster roster, Path folder, TesterKey key, List<Path> unread) {
        List<Path> files;
        try (Stream<Path> found = Files.isDirectory(folder) ? Files.walk(folder, DEEPEST) : Stream.empty()) {
            files = found.filter(path -> path.endsWith("record.json"))
                    .sorted()
                    .limit(MOST_RECORDS)
                    .toList();
        } catch (IOException | java.io.UncheckedIOException e) {
            unread.add(folder);
            return 0;
        }
        int entered = 0;
        for (Path file : files) {
            try {
                RunRecord record = RecordFile.load(file);
                if (record.verdict() == null || record.method().ioMode() == IoMode.SIMULATED) {
                    continue;
                }
                SignedRecord signed = SignedRecord.sign(record, key);
                if (!roster.hasRecord(signed.sha256())) {
                    roster.desk(key).enter(signed, null);
                    entered++;
                }
            } catch (RecordException e) {
                unread.add(file);
            }
        }
        return entered;
    }
}
