package tracksoak.profiles;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tracksoak.profiles.base.RecordParts;

/**
 * What will be recorded (or played), and the margin asked of a drive. Immutable; made by {@link SessionReader}, which
 * checks every range, or by {@link #builder}.
 *
 * @param name short name, {@code [a-z0-9-]+}, unique among the sessions known
 * @param title one line for people
 * @param about what the session is for, may be empty
 * @param kind recording, playback, mixdown or archive
 * @param groups the tracks recorded (or, for playback and mixdown, read), at least one group
 * @param mix for a mixdown the tracks written while the groups are read, else empty
 * @param lengthS length of the session in s
 * @param layout how tracks share files
 * @param chunkBytes the piece written at once, per stream, in bytes
 * @param arrival when chunks fall due
 * @param writers writes in flight at once, at least 1
 * @param flushS interval between two flushes of one file in s, 0 for none before the end
 * @param headerS interval at which the header of a file is written anew in s, 0 for at its end only
 * @param spaceInAdvanceBytes room a file is given ahead of what is written, in bytes, 0 for none
 * @param bufferS what the recorder can hold per track, in s
 * @param bufferAssumed true where nobody has measured the recorder's buffer
 * @param fileLimitBytes largest file the recorder writes before it starts the next one, in bytes
 * @param fileSystems file systems the recorder accepts, lower case, in the session's order
 * @param stallLimitMs an interval without a finished chunk longer than this is a stall, in ms
 * @param risk chance of losing audio in one show that is accepted, 0…1
 * @param validDays how long a PASS for it counts in the roster, in days
 * @param margins what is asked per criterion
 */
public record Session(
        String name,
        String title,
        String about,
        SessionKind kind,
        List<TrackGroup> groups,
        List<TrackGroup> mix,
        long lengthS,
        FileLayout layout,
        int chunkBytes,
        Arrival arrival,
        int writers,
        double flushS,
        double headerS,
        long spaceInAdvanceBytes,
        double bufferS,
        boolean bufferAssumed,
        long fileLimitBytes,
        List<String> fileSystems,
        long stallLimitMs,
        double risk,
        int validDays,
        Margins margins) {

    /** {@link #risk} where a profile says nothing: 1 show in 100. Own choice. */
    public static final double USUAL_RISK = 0.01;

    /** {@link #validDays} where a profile says nothing: a quarter of a year. Common practice, no source. */
    public static final int USUAL_VALID_DAYS = 90;

    public Session {
        groups = List.copyOf(groups);
        mix = List.copyOf(mix);
        fileSystems = List.copyOf(fileSystems);
    }

    /** Number of tracks in all groups. */
    public int tracks() {
        return groups.stream().mapToInt(TrackGroup::tracks).sum();
    }

    /** Demand of the groups in bytes per second. */
    public long bytesPerSecond() {
        return groups.stream().mapToLong(TrackGroup::bytesPerSecond).sum();
    }

    /** Most room that the open files are given ahead of what is written, in bytes; it is given back when they are closed. */
    public long aheadBytes() {
        return streams().size() * Math.min(spaceInAdvanceBytes, fileLimitBytes);
    }

    /** Whether a file of the whole session comes to be larger than any FAT takes. */
    public boolean outgrowsFat() {
        return !FileLimit.FAT32.allows(fileLimitBytes)
                && Stream.concat(streams().stream(), mixStreams().stream())
                        .anyMatch(stream ->
                                !FileLimit.FAT32.allows(FileLimit.fileBytes(stream.bytesPerSecond() * lengthS)));
    }

    /** The streams the groups make, in track order: one per track, or one per group where tracks are interleaved. */
    public List<StreamSpec> streams() {
        return streamsOf(groups);
    }

    /** The streams a mixdown writes, empty otherwise. */
    public List<StreamSpec> mixStreams() {
        return streamsOf(mix);
    }

    private List<StreamSpec> streamsOf(List<TrackGroup> of) {
        List<StreamSpec> streams = new ArrayList<>();
        for (TrackGroup group : of) {
            if (layout == FileLayout.INTERLEAVED) {
                streams.add(new StreamSpec(streams.size(), group.tracks(), group.bytesPerSecond(), chunkBytes));
            } else {
                for (int track = 0; track < group.tracks(); track++) {
                    streams.add(new StreamSpec(streams.size(), 1, group.bytesPerSecondPerTrack(), chunkBytes));
                }
            }
        }
        return List.copyOf(streams);
    }

    /** A place to say what a session is, value by value. */
    public static Builder builder() {
        return new Builder(RecordParts.unsaid(Session.class))
                .about("")
                .mix(List.of())
                .headerS(0)
                .spaceInAdvanceBytes(0)
                .risk(USUAL_RISK)
                .validDays(USUAL_VALID_DAYS);
    }

    /** This session, to be made into another that differs in a few values. */
    public Builder but() {
        return new Builder(RecordParts.of(this)).margins(margins).longestStallMs(ownLongestStallMs());
    }

    /** The longest stall allowed in ms, 0 where it is what follows from the buffer. */
    public long ownLongestStallMs() {
        return margins.longestStallMs() == usualLongestStallMs() ? 0 : margins.longestStallMs();
    }

    /** Audio in the chunk that takes longest to fill, in ms: a recorder on a perfect drive is as far behind. */
    public double longestChunkMs() {
        return streams().stream()
                .mapToDouble(stream -> stream.chunkBytes() * 1000.0 / stream.bytesPerSecond())
                .max()
                .orElse(0);
    }

    /**
     * The longest stall, in whole ms, that leaves the buffer its margin beside the chunk that is being made; never less than
     * the stall limit.
     */
    long usualLongestStallMs() {
        double spareMs = bufferS * 1000 / margins.buffer() - longestChunkMs();
        return Math.max(stallLimitMs, (long) Math.floor(spareMs));
    }

    private Session stalling(long longestMs) {
        Margins asked =
                RecordParts.of(margins).with("longestStallMs", longestMs).make();
        return RecordParts.of(this).with("margins", asked).make();
    }

    /**
     * Collects the values of a session; units and meanings as there. Every one must be said, but for the note, the mix,
     * the headers, the space, the risk and the days, which are usually {@code ""}, none, 0, 0, {@value #USUAL_RISK} and
     * {@value #USUAL_VALID_DAYS}; a longest stall of 0 follows from the buffer. Checks no range. Confined to one thread.
     */
    public static final class Builder {
        private final RecordParts<Session> parts;
        private RecordParts<Margins> margins = RecordParts.unsaid(Margins.class);

        private Builder(RecordParts<Session> parts) {
            this.parts = parts;
        }

        private Builder with(String part, Object value) {
            parts.with(part, value);
            return this;
        }

        private Builder margin(String part, Object value) {
            margins.with(part, value);
            return this;
        }

        public Builder name(String value) {
            return with("name", value);
        }

        public Builder title(String value) {
            return with("title", value);
        }

        public Builder about(String value) {
            return with("about", value);
        }

        public Builder kind(SessionKind value) {
            return with("kind", value);
        }

        public Builder groups(List<TrackGroup> value) {
            return with("groups", value);
        }

        public Builder mix(List<TrackGroup> value) {
            return with("mix", value);
        }

        public Builder lengthS(long value) {
            return with("lengthS", value);
        }

        public Builder layout(FileLayout value) {
            return with("layout", value);
        }

        public Builder chunkBytes(int value) {
            return with("chunkBytes", value);
        }

        public Builder arrival(Arrival value) {
            return with("arrival", value);
        }

        public Builder writers(int value) {
            return with("writers", value);
        }

        public Builder flushS(double value) {
            return with("flushS", value);
        }

        public Builder headerS(double value) {
            return with("headerS", value);
        }

        public Builder spaceInAdvanceBytes(long value) {
            return with("spaceInAdvanceBytes", value);
        }

        public Builder bufferS(double value) {
            return with("bufferS", value);
        }

        public Builder bufferAssumed(boolean value) {
            return with("bufferAssumed", value);
        }

        public Builder fileLimitBytes(long value) {
            return with("fileLimitBytes", value);
        }

        public Builder fileSystems(List<String> value) {
            return with("fileSystems", value);
        }

        public Builder stallLimitMs(long value) {
            return with("stallLimitMs", value);
        }

        public Builder risk(double value) {
            return with("risk", value);
        }

        public Builder validDays(int value) {
            return with("validDays", value);
        }

        public Builder marginBuffer(double value) {
            return margin("buffer", value);
        }

        public Builder marginRate(double value) {
            return margin("rate", value);
        }

        public Builder marginPort(double value) {
            return margin("port", value);
        }

        public Builder marginPlayback(double value) {
            return margin("playback", value);
        }

        public Builder longestStallMs(long value) {
            return margin("longestStallMs", value);
        }

        public Builder closeMs(long value) {
            return margin("closeMs", value);
        }

        public Builder margins(Margins value) {
            margins = RecordParts.of(value);
            return this;
        }

        /**
         * The session.
         *
         * @throws IllegalStateException if a value was not said
         */
        public Session build() {
            Session session = parts.with("margins", margins.make()).make();
            return session.margins.longestStallMs() > 0 ? session : session.stalling(session.usualLongestStallMs());
        }
    }
}
