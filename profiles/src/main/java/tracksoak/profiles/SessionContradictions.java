package tracksoak.profiles;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Quantity;

/**
 * What two values of a session must not say together. Each message holds both, and a pair is left out where one of the
 * two is wrong in itself or not there.
 */
final class SessionContradictions {
    private static final int CHUNKS_PER_BUFFER = 2;
    private static final int CHUNKS_PER_FILE = 16;
    private static final long MOST_FILES = 100_000;
    private static final String RATE = "tracks[0].sample_rate_hz";
    private static final String COUNT = "tracks[0].count";

    private final ErrorCollector problems;
    private final List<TrackGroup> groups;
    private final List<TrackGroup> mix;
    private final @Nullable SessionKind kind;
    private final @Nullable FileLayout layout;
    private final @Nullable Long lengthS;
    private final @Nullable Long chunkBytes;
    private final @Nullable Long fileLimitBytes;
    private final SessionDraft draft;

    private SessionContradictions(SessionDraft draft, ErrorCollector problems) {
        this.draft = draft;
        this.problems = problems;
        groups = tracksOf(draft.groups, Key.TRACKS);
        mix = tracksOf(draft.mix, Key.MIX);
        kind = draft.get(Key.KIND, SessionKind.class);
        layout = draft.get(Key.LAYOUT, FileLayout.class);
        lengthS = sound(Key.LENGTH, Long.class);
        chunkBytes = sound(Key.CHUNK, Long.class);
        fileLimitBytes = sound(Key.FILE_LIMIT, Long.class);
    }

    /** Checks every pair of values of which each is right in itself. */
    static void check(SessionDraft draft, ErrorCollector problems) {
        SessionContradictions rules = new SessionContradictions(draft, problems);
        rules.checkTracks();
        rules.checkMix();
        rules.checkChunk();
        rules.checkWriters();
        rules.checkInterleaved();
        rules.checkFileLimit();
        rules.checkNumberOfFiles();
        rules.checkStall();
    }

    private void checkTracks() {
        int tracks = allTracks().mapToInt(TrackGroup::tracks).sum();
        if (tracks > Key.TRACKS_MAX) {
            String problem = "has " + tracks + " tracks in all groups";
            add(List.of("tracks", COUNT), tracks, problem, "1 to 1024 tracks in all groups", "write fewer tracks");
        }
    }

    private void checkMix() {
        if (kind == SessionKind.MIXDOWN && draft.mix.isEmpty()) {
            String problem = "kind mixdown, but there is no [[mix]] that says what is written";
            add(List.of("kind", "mix"), "mixdown", problem, Key.MIX.allowed(), "add " + Key.MIX.example());
        } else if (kind != null && kind != SessionKind.MIXDOWN && !draft.mix.isEmpty()) {
            String problem = "[[mix]] in a session of kind " + ProfileWords.of(kind);
            String remedy = "take [[mix]] out, or write kind = \"mixdown\"";
            add(List.of("mix", "kind"), "", problem, Key.MIX.allowed(), remedy);
        }
    }

    private void checkChunk() {
        if (chunkBytes == null || layout == null || groups.isEmpty()) {
            return;
        }
        double slowest = allTracks()
                .mapToLong(g -> layout == FileLayout.INTERLEAVED ? g.bytesPerSecond() : g.bytesPerSecondPerTrack())
                .min()
                .orElse(1);
        double chunkS = chunkBytes / slowest;
        Double bufferS = sound(Key.BUFFER, Double.class);
        if (bufferS != null && chunkS > bufferS / CHUNKS_PER_BUFFER) {
            add(
                    List.of("chunk", "buffer_s", RATE),
                    chunkBytes,
                    text(
                            "chunk %d B of the slowest stream is %.3f s > half of buffer_s %s",
                            chunkBytes, chunkS, Quantity.plain(bufferS)),
                    "a buffer holds two chunks or more",
                    "write a smaller chunk or a longer buffer_s");
        }
        Double flushS = sound(Key.FLUSH, Double.class);
        if (flushS != null && flushS > 0 && flushS < chunkS) {
            add(
                    List.of("flush_s", "chunk", RATE),
                    flushS,
                    text(
                            "flush_s %s < %.3f s, the time one chunk of %d B takes to fill: nothing new to flush",
                            Quantity.plain(flushS), chunkS, chunkBytes),
                    "0, or at least the time of one chunk",
                    "write a longer flush_s or a smaller chunk");
        }
    }

    private void checkWriters() {
        Long writers = sound(Key.WRITERS, Long.class);
        if (writers == null || layout == null || groups.isEmpty()) {
            return;
        }
        long files = layout == FileLayout.INTERLEAVED
                ? allTracks().count()
                : allTracks().mapToLong(TrackGroup::tracks).sum();
        if (writers > files) {
            add(
                    List.of("writers", "layout", COUNT),
                    writers,
                    text("writers %d > %d, the number of files open at once", writers, files),
                    "at most one writer per open file",
                    "write fewer writers");
        }
    }

    private void checkInterleaved() {
        if (layout == FileLayout.INTERLEAVED) {
            refuseTwins(groups);
            refuseTwins(mix);
        }
    }

    private void refuseTwins(List<TrackGroup> some) {
        Set<String> seen = new HashSet<>();
        for (TrackGroup group : some) {
            String alike = group.sampleRateHz() + " Hz, " + group.format().words();
            if (!seen.add(alike)) {
                add(
                        List.of("layout", RATE),
                        "interleaved",
                        "layout interleaved, but two groups of " + alike + ": would they share a file or not?",
                        "one group for each sample rate and word length",
                        "make them one group with the sum of their counts");
            }
        }
    }

    private void checkFileLimit() {
        if (fileLimitBytes != null && chunkBytes != null && fileLimitBytes < CHUNKS_PER_FILE * chunkBytes) {
            add(
                    List.of("file_limit", "chunk"),
                    fileLimitBytes,
                    text("file_limit %d B < %d chunks of %d B", fileLimitBytes, CHUNKS_PER_FILE, chunkBytes),
                    "at least " + CHUNKS_PER_FILE + " chunks",
                    "write a larger file_limit or a smaller chunk");
        }
        if (fileLimitBytes != null
                && !FileLimit.FAT32.allows(fileLimitBytes)
                && draft.texts(Key.FILE_SYSTEMS).contains("fat32")) {
            add(
                    List.of("file_limit", "file_systems"),
                    fileLimitBytes,
                    text("file_limit %d B is more than FAT32 can hold, yet file_systems has fat32", fileLimitBytes),
                    "at most 4294967295 B with fat32",
                    "write file_limit = 4294967295, or take fat32 out");
        }
    }

    private void checkNumberOfFiles() {
        if (fileLimitBytes == null || lengthS == null) {
            return;
        }
        long files = allTracks().mapToLong(TrackGroup::bytesPerSecond).sum() * lengthS / fileLimitBytes;
        if (files > MOST_FILES) {
            add(
                    List.of("file_limit", "length", COUNT, RATE),
                    fileLimitBytes,
                    text("file_limit %d B cuts the session into %d files", fileLimitBytes, files),
                    "at most " + MOST_FILES + " files",
                    "write a larger file_limit or a shorter length");
        }
    }

    private void checkStall() {
        Long longestMs = sound(Key.LONGEST_STALL, Long.class);
        Long limitMs = sound(Key.STALL_LIMIT, Long.class);
        if (longestMs != null && longestMs > 0 && limitMs != null && longestMs < limitMs) {
            add(
                    List.of("margins.longest_stall_ms", "stall_limit_ms"),
                    longestMs,
                    text(
                            "longest_stall_ms %d < stall_limit_ms %d, and shorter waits are not counted as stalls",
                            longestMs, limitMs),
                    "at least stall_limit_ms",
                    "write a longer longest_stall_ms or a shorter stall_limit_ms");
        }
    }

    private Stream<TrackGroup> allTracks() {
        return Stream.concat(groups.stream(), mix.stream());
    }

    private List<TrackGroup> tracksOf(List<SessionDraft.Group> drafts, Key key) {
        return problems.isSound(key.path())
                ? drafts.stream().map(SessionDraft.Group::toTrackGroup).toList()
                : List.of();
    }

    private <T> @Nullable T sound(Key key, Class<T> type) {
        return problems.isSound(key.path()) ? draft.get(key, type) : null;
    }

    private void add(List<String> keys, Object value, String problem, String allowed, String remedy) {
        problems.add(keys, value, problem, allowed, remedy);
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
