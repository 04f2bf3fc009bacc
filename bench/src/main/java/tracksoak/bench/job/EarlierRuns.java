package tracksoak.bench.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileVisitOption;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.history.Likeness;
import tracksoak.report.history.Past;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.json.RecordFile;

/**
 * The records of earlier runs of one drive among all that lie in a folder, or from elsewhere. What is no record, or
 * damaged, is passed over with a line and never ends the search. Only the places are kept, not the records.
 *
 * @param found in order of time
 * @param looked how many records were read
 * @param passedOver which runs of the drive were not taken, and why; one sentence each
 */
public record EarlierRuns(List<Match> found, int looked, List<String> passedOver) {

    private static final Pattern NAME = Pattern.compile("record[A-Za-z0-9._-]{0,80}\\.json");
    private static final int DEEPEST = 4;
    private static final int MOST_FILES = 20_000;
    private static final int MOST_TOLD = 5;

    public EarlierRuns {
        found = found.stream()
                .sorted(Comparator.comparing(Match::startedAt).thenComparing(Match::id))
                .toList();
        passedOver = List.copyOf(passedOver);
    }

    /**
     * A record of the drive.
     *
     * @param startedAt when the run began
     * @param likeness why it is taken to be of the drive
     * @param complete whether the run came to its end
     */
    record Match(Source source, String id, Instant startedAt, Likeness likeness, boolean complete) {

        public static Match of(RunRecord record, Source source, Likeness likeness) {
            return new Match(
                    source,
                    record.id(),
                    Instant.parse(record.startedAt()),
                    likeness,
                    record.state() == RunState.COMPLETE && !record.phases().isEmpty());
        }
    }

    /** Where a record is kept. */
    interface Source {

        /**
         * Reads it.
         *
         * @throws RecordException if that is no longer possible
         */
        RunRecord load();
    }

    /**
     * Looks through {@code folder} and the folders in it.
     *
     * @param tag what the crew calls the drive, null if nobody said
     */
    public static EarlierRuns of(DriveFacts drive, @Nullable String tag, Path folder, JobListener listener) {
        List<Match> found = new ArrayList<>();
        int looked = 0;
        int damaged = 0;
        for (Path file : files(folder, listener)) {
            RunRecord record;
            try {
                record = RecordFile.load(file);
            } catch (RecordException wrong) {
                if (damaged++ < MOST_TOLD) {
                    listener.note("passed over " + Inert.quoted(file) + ": " + Inert.whole(wrong.why()));
                }
                continue;
            }
            looked++;
            Optional<Likeness> likeness = Likeness.of(drive, tag, record.drive(), record.tag());
            likeness.ifPresent(like -> found.add(Match.of(record, () -> RecordFile.load(file), like)));
        }
        if (damaged > MOST_TOLD) {
            listener.note((damaged - MOST_TOLD) + " more files were passed over, as they are no sound records");
        }
        return new EarlierRuns(found, looked, List.of());
    }

    /** These and others; a run of both is taken from here. */
    EarlierRuns and(EarlierRuns others) {
        List<Match> all = new ArrayList<>(found);
        others.found.stream().filter(match -> !holds(match.id())).forEach(all::add);
        List<String> over = new ArrayList<>(passedOver);
        over.addAll(others.passedOver);
        return new EarlierRuns(all, looked + others.looked, over);
    }

    /** Whether a run is among them. */
    boolean holds(String id) {
        return found.stream().anyMatch(match -> match.id().equals(id));
    }

    private static List<Path> files(Path folder, JobListener listener) {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> all = Files.walk(folder, DEEPEST, new FileVisitOption[0])) {
            List<Path> files = all.filter(file ->
                            NAME.matcher(String.valueOf(file.getFileName())).matches()
                                    && Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS))
                    .limit(MOST_FILES)
                    .sorted()
                    .toList();
            if (files.size() == MOST_FILES) {
                listener.note("only the first " + MOST_FILES + " records of " + Inert.quoted(folder)
                        + " are looked at; name a smaller folder with --records");
            }
            return files;
        } catch (IOException | UncheckedIOException unreadable) {
            throw Problem.cannot(
                    "the folder " + Inert.quoted(folder) + " cannot be looked through (" + Problem.reason(unreadable)
                            + ")",
                    "make it readable, or name another with --records");
        }
    }

    /** The run to repeat: the latest that came to its end, else the latest. */
    public Optional<RunRecord> last() {
        Match last = null;
        for (Match match : found) {
            if (last == null || match.complete() || !last.complete()) {
                last = match;
            }
        }
        return last == null ? Optional.empty() : Optional.of(last.source().load());
    }

    /** What became of the drive up to {@code latest}. */
    public DriveHistory history(RunRecord latest, JobListener listener) {
        List<Past> pasts = new ArrayList<>();
        for (Match match : found) {
            if (match.id().equals(latest.id())) {
                continue;
            }
            try {
                pasts.add(Past.of(match.source().load(), latest));
            } catch (RecordException changed) {
                listener.note("passed over the run of " + match.startedAt() + ": " + Inert.whole(changed.why()));
            }
        }
        return DriveHistory.of(latest, pasts, told(latest.id()));
    }

    /** How the earlier runs were found, one sentence per way, and which were not taken. */
    public List<String> told(String but) {
        List<String> told = new ArrayList<>(matched(but));
        told.addAll(passedOver);
        return told;
    }

    private List<String> matched(String but) {
        Set<String> ways = new LinkedHashSet<>();
        for (Match match : found) {
            if (!match.id().equals(but)) {
                ways.add(match.likeness().sentence());
            }
        }
        return ways.stream()
                .map(way -> "Earlier runs of this drive were found " + way + ".")
                .toList();
    }
}
