package tracksoak.bench.standin.learn;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.WaveFormat;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.FileLimit;
import tracksoak.profiles.Key;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.SessionToml;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Units;

/** The session file that a learnt pattern and a measured buffer make, each value with what shows it. Confined to one thread. */
public final class LearnedSession {

    private static final String GUESS = "a guess: ";
    private static final int LEAST_CHUNK = 4096;
    private static final int MOST_CHUNK = 16 << 20;
    private static final int MOST_TRACKS = 1024;
    private static final double LEAST_BUFFER_S = 0.01;

    private final Map<Key, String> comments = new EnumMap<>(Key.class);
    private final Session like;
    private final Session.Builder session;
    private final Pattern pattern;

    private LearnedSession(Pattern pattern, @Nullable BufferFound buffer, Session like, String name) {
        this.pattern = pattern;
        this.like = like;
        this.session = like.but().name(name).title("As learnt: " + tracks()).about("");
        comments.put(Key.LENGTH, GUESS + "write the show's own");
        groups();
        chunk();
        pattern.arrival()
                .ifPresentOrElse(
                        arrival -> {
                            session.arrival(arrival);
                            shown(Key.ARRIVAL, "when in a round each file is written");
                        },
                        () -> guess(Key.ARRIVAL, "one file, or too short a recording"));
        session.writers(Math.max(1, Math.min(64, Math.min(pattern.writers(), pattern.streams()))));
        shown(Key.WRITERS, "most files with a write unanswered at once; more may hide where the drive answers at once");
        session.flushS(rounded(pattern.flushS(), like.flushS())).headerS(rounded(pattern.headerS(), like.headerS()));
        interval(Key.FLUSH, pattern.flushS().isPresent());
        interval(Key.HEADER, pattern.headerS().isPresent());
        if (pattern.advanceBytes().isPresent()) {
            session.spaceInAdvanceBytes(
                    Math.min(16L << 30, pattern.advanceBytes().getAsLong() / LEAST_CHUNK * LEAST_CHUNK));
            shown(Key.SPACE_IN_ADVANCE, "how the clusters of the files lie");
        } else {
            guess(Key.SPACE_IN_ADVANCE, "the clusters do not show it");
        }
        limit();
        session.fileSystems(List.of(pattern.fileSystem()));
        shown(Key.FILE_SYSTEMS, "the recorder wrote to it; it may accept others, too");
        buffer(buffer);
    }

    /**
     * The text of the session file.
     *
     * @param buffer what a probe has shown; null without one
     * @param like where values come from that nothing shows
     * @param name of the session
     * @throws Problem if what was learnt makes no session
     */
    public static String text(Pattern pattern, @Nullable BufferFound buffer, Session like, String name) {
        return new LearnedSession(pattern, buffer, like, name).text();
    }

    private String text() {
        String head =
                "# Learnt from a recording on a stand-in, by tracksoak. Whatever is called a guess was not shown by"
                        + " it.\n";
        Session made = session.build();
        double fitting =
                2.0 * made.chunkBytes() / Math.max(1, made.streams().get(0).bytesPerSecond());
        if (made.bufferAssumed() && made.bufferS() < fitting) {
            made = made.but().bufferS(Math.min(600, Math.ceil(fitting))).build();
        }
        made = smallerChunk(made);
        double chunkS = fitting / 2;
        if (made.flushS() > 0 && made.flushS() < chunkS) {
            made = made.but().flushS(Math.ceil(chunkS * 10) / 10).build();
            shown(Key.FLUSH, "a flush after about every chunk");
        }
        for (String doubt : pattern.doubts()) {
            head += "# Mind: " + doubt + "\n";
        }
        String text = head + SessionToml.write(made, comments);
        try {
            SessionReader.read(text, "the session that was learnt");
            return text;
        } catch (ProfileException contradiction) {
            throw new Problem(
                    Problem.Kind.REFUSED,
                    "What was learnt makes no session",
                    "",
                    Inert.whole(String.valueOf(contradiction.getMessage())),
                    "record longer, or write the session by hand: tracksoak sessions text band-32");
        }
    }

    /** No session has a buffer of less than two chunks; what is surely held may be less. */
    private Session smallerChunk(Session made) {
        double half = made.bufferS() / 2 * made.streams().get(0).bytesPerSecond();
        if (made.chunkBytes() <= half || half < LEAST_CHUNK) {
            return made;
        }
        guess(
                Key.CHUNK,
                "the files grew by " + made.chunkBytes()
                        + " B at a time, but no session has a chunk that is larger than half of the buffer");
        return made.but().chunkBytes((int) half / LEAST_CHUNK * LEAST_CHUNK).build();
    }

    private void shown(Key key, String evidence) {
        comments.put(key, "shown: " + evidence);
    }

    private void guess(Key key, String why) {
        comments.put(key, GUESS + why);
    }

    private String tracks() {
        return pattern.tracks().isPresent()
                ? Count.of(pattern.tracks().getAsInt(), "track")
                : Count.of(pattern.streams(), "file") + " at once";
    }

    private void groups() {
        int tracks = pattern.tracks().orElse(pattern.streams());
        WaveFormat format = pattern.format().orElse(null);
        Optional<SampleFormat> samples = pattern.format().flatMap(WaveFormat::sampleFormat);
        if (format != null && samples.isPresent() && tracks <= MOST_TRACKS) {
            session.groups(List.of(new TrackGroup(tracks, format.sampleRateHz(), samples.get())));
            comments.put(
                    Key.COUNT,
                    pattern.filesKnown()
                            ? "shown: the files' headers"
                            : GUESS + "the file system contradicts itself, so files may be missing");
            boolean single = format.channels() == 1;
            session.layout(single ? FileLayout.FILE_PER_TRACK : FileLayout.INTERLEAVED);
            shown(Key.LAYOUT, single ? "every file holds one track" : "a file holds several tracks");
        } else {
            comments.put(
                    Key.COUNT,
                    GUESS + "the files have no header that tells; "
                            + Count.of(pattern.streams(), "file") + " grew at once, "
                            + Units.rate(pattern.bytesPerSecond()) + " in all");
            guess(Key.LAYOUT, "the files have no header that tells");
        }
    }

    private void chunk() {
        long bytes = pattern.chunkBytes().orElse(0);
        if (bytes >= LEAST_CHUNK && bytes <= MOST_CHUNK && bytes % LEAST_CHUNK == 0) {
            session.chunkBytes((int) bytes);
            shown(Key.CHUNK, "most pieces that the files grew by were of this size");
        } else {
            guess(
                    Key.CHUNK,
                    bytes == 0
                            ? "the pieces that the files grew by were all of different sizes"
                            : "the files grew by " + bytes + " B at a time, which no session can say");
        }
    }

    /** A time as people would set it: to the tenth of a second. */
    private static double rounded(OptionalDouble s, double usual) {
        return s.isPresent() ? Math.min(3600, Math.round(s.getAsDouble() * 10) / 10.0) : usual;
    }

    private void interval(Key key, boolean told) {
        if (told) {
            shown(key, "the times of those writes in the trace");
        } else {
            guess(key, "too few, or held up by stops, to tell how often");
        }
    }

    private void limit() {
        long bytes = pattern.fileLimitBytes().orElse(0);
        if (bytes >= 1 << 20) {
            session.fileLimitBytes(bytes);
            shown(Key.FILE_LIMIT, "files of that size were followed at once by the next");
        } else {
            boolean fat = pattern.fileSystem().equals("fat32");
            session.fileLimitBytes(fat ? FileLimit.FAT32.maxFileBytes() : like.fileLimitBytes());
            guess(Key.FILE_LIMIT, "no file became full");
        }
    }

    private void buffer(@Nullable BufferFound found) {
        if (found == null || !found.measured() || found.heldS().orElse(0) < LEAST_BUFFER_S) {
            session.bufferS(like.bufferS()).bufferAssumed(true);
            guess(Key.BUFFER, "measure it with tracksoak stand-in probe");
            return;
        }
        session.bufferS(Math.min(600, found.heldS().orElse(0)))
                .bufferAssumed(false)
                .about(RecorderBuffer.sentence(
                        found.startEpochMs(), bounds(found), found.tried().size(), found.traceSha256()));
        comments.put(Key.BUFFER, "measured: " + bounds(found));
        comments.put(Key.BUFFER_ASSUMED, "it was measured");
    }

    /** The bounds in words. */
    public static String bounds(BufferFound found) {
        String held = found.heldS().isPresent()
                ? "held " + s(found.heldS().getAsDouble()) + " of audio " + times(found.heldTimes())
                : "held nothing that was tried";
        return held
                + (found.lostS().isPresent()
                        ? ", lost audio at " + s(found.lostS().getAsDouble())
                        : found.doubtS().isPresent()
                                ? ", seemed to lose some at " + s(found.doubtS().getAsDouble())
                                : ", and lost none with any stop that was tried");
    }

    private static String times(int times) {
        return times == 1 ? "once" : Count.number(times) + " times";
    }

    static String s(double s) {
        return Quantity.plain(Math.round(s * 1000) / 1000.0) + " s";
    }
}
