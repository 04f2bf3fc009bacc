package tracksoak.profiles;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** What two values of a session must not say together. Each message holds both. */
final class SessionContradictions {
    private static final int CHUNKS_PER_BUFFER = 2;
    private static final int CHUNKS_PER_FILE = 16;
    private static final long MOST_FILES = 100_000;

    private final Session session;
    private final Problems problems;

    private SessionContradictions(Session session, Problems problems) {
        this.session = session;
        this.problems = problems;
    }

    static void check(Session session, Problems problems) {
        SessionContradictions rules = new SessionContradictions(session, problems);
        rules.checkTracks();
        rules.checkMix();
        rules.checkChunkAgainstBuffer();
        rules.checkFlush();
        rules.checkWriters();
        rules.checkInterleaved();
        rules.checkFileLimit();
        rules.checkStall();
    }

    private void checkTracks() {
        int tracks = session.tracks()
                + session.mix().stream().mapToInt(TrackGroup::tracks).sum();
        if (session.groups().isEmpty() || tracks > Key.TRACKS_MAX) {
            add(
                    List.of("tracks"),
                    tracks,
                    "has " + tracks + " tracks in all groups",
                    "1 to 1024 tracks in all groups",
                    "write fewer tracks");
        }
    }

    private void checkMix() {
        boolean mixdown = session.kind() == SessionKind.MIXDOWN;
        if (mixdown && session.mix().isEmpty()) {
            add(
                    List.of("kind", "mix"),
                    "mixdown",
                    "kind mixdown, but there is no [[mix]] that says what is written",
                    Key.MIX.allowed(),
                    "add " + Key.MIX.example());
        } else if (!mixdown && !session.mix().isEmpty()) {
            add(
                    List.of("mix", "kind"),
                    "",
                    "[[mix]] in a session of kind " + Words.of(session.kind()),
                    Key.MIX.allowed(),
                    "take [[mix]] out, or write kind = \"mixdown\"");
        }
    }

    private void checkChunkAgainstBuffer() {
        double slowest = slowestBytesPerSecond();
        double chunkS = session.chunkBytes() / slowest;
        if (chunkS > session.bufferS() / CHUNKS_PER_BUFFER) {
            add(
                    List.of("chunk", "buffer_s"),
                    session.chunkBytes(),
                    text(
                            "chunk %d B of the slowest stream is %.3f s > half of buffer_s %s",
                            session.chunkBytes(), chunkS, Quantity.plain(session.bufferS())),
                    "a buffer holds two chunks or more",
                    "write a smaller chunk or a longer buffer_s");
        }
    }

    private void checkFlush() {
        double chunkS = session.chunkBytes() / slowestBytesPerSecond();
        if (session.flushS() > 0 && session.flushS() < chunkS) {
            add(
                    List.of("flush_s", "chunk"),
                    session.flushS(),
                    text(
                            "flush_s %s < %.3f s, the time one chunk of %d B takes to fill, so there would be nothing to flush",
                            Quantity.plain(session.flushS()), chunkS, session.chunkBytes()),
                    "0, or at least the time of one chunk",
                    "write a longer flush_s or a smaller chunk");
        }
        if (session.flushS() > session.lengthS()) {
            add(
                    List.of("flush_s", "length"),
                    session.flushS(),
                    text(
                            "flush_s %s > length %d s, so it would never flush",
                            Quantity.plain(session.flushS()), session.lengthS()),
                    "0, or at most the length",
                    "write flush_s = 0 for no flush before the end");
        }
    }

    private void checkWriters() {
        int streams = session.streams().size() + session.mixStreams().size();
        if (session.writers() > streams) {
            add(
                    List.of("writers", "layout", "tracks"),
                    session.writers(),
                    text("writers %d > %d, the number of files open at once", session.writers(), streams),
                    "at most one writer per open file",
                    "write fewer writers");
        }
    }

    private void checkInterleaved() {
        if (session.layout() != FileLayout.INTERLEAVED) {
            return;
        }
        for (List<TrackGroup> groups : List.of(session.groups(), session.mix())) {
            Set<String> seen = new HashSet<>();
            for (TrackGroup group : groups) {
                if (!seen.add(group.sampleRateHz() + " Hz, " + group.format().words())) {
                    add(
                            List.of("layout", "tracks"),
                            "interleaved",
                            text(
                                    "layout interleaved, but two groups of %d Hz, %s: would they share one file or not?",
                                    group.sampleRateHz(), group.format().words()),
                            "one group for each sample rate and word length",
                            "make them one group with the sum of their counts");
                }
            }
        }
    }

    private void checkFileLimit() {
        long least = (long) CHUNKS_PER_FILE * session.chunkBytes();
        if (session.fileLimitBytes() < least) {
            add(
                    List.of("file_limit", "chunk"),
                    session.fileLimitBytes(),
                    text(
                            "file_limit %d B < %d chunks of %d B",
                            session.fileLimitBytes(), CHUNKS_PER_FILE, session.chunkBytes()),
                    "at least " + CHUNKS_PER_FILE + " chunks",
                    "write a larger file_limit or a smaller chunk");
        }
        if (session.fileSystems().contains("fat32") && session.fileLimitBytes() > FileLimit.FAT32.maxFileBytes()) {
            add(
                    List.of("file_limit", "file_systems"),
                    session.fileLimitBytes(),
                    text(
                            "file_limit %d B is more than a file on FAT32 can hold, yet file_systems accepts fat32",
                            session.fileLimitBytes()),
                    "at most 4294967295 B with fat32",
                    "write file_limit = 4294967295, or take fat32 out");
        }
        long files = session.bytesPerSecond() * session.lengthS() / session.fileLimitBytes();
        if (files > MOST_FILES) {
            add(
                    List.of("file_limit", "length"),
                    session.fileLimitBytes(),
                    text("file_limit %d B cuts the session into %d files", session.fileLimitBytes(), files),
                    "at most " + MOST_FILES + " files",
                    "write a larger file_limit or a shorter length");
        }
    }

    private void checkStall() {
        if (session.margins().longestStallMs() < session.stallLimitMs()) {
            add(
                    List.of("margins.longest_stall_ms", "stall_limit_ms"),
                    session.margins().longestStallMs(),
                    text(
                            "longest_stall_ms %d < stall_limit_ms %d, and shorter waits are not counted as stalls",
                            session.margins().longestStallMs(), session.stallLimitMs()),
                    "at least stall_limit_ms",
                    "write a longer longest_stall_ms or a shorter stall_limit_ms");
        }
    }

    private double slowestBytesPerSecond() {
        double streams = session.streams().stream()
                .mapToLong(StreamSpec::bytesPerSecond)
                .min()
                .orElse(1);
        double mix = session.mixStreams().stream()
                .mapToLong(StreamSpec::bytesPerSecond)
                .min()
                .orElse(Long.MAX_VALUE);
        return Math.min(streams, mix);
    }

    private void add(List<String> keys, Object value, String problem, String allowed, String remedy) {
        problems.add(keys, value, problem, allowed, remedy);
    }

    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
