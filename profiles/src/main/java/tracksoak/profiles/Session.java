package tracksoak.profiles;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

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
        return new Builder();
    }

    /** This session, to be made into another that differs in a few values. */
    public Builder but() {
        return builder()
                .name(name)
                .title(title)
                .about(about)
                .kind(kind)
                .groups(groups)
                .mix(mix)
                .lengthS(lengthS)
                .layout(layout)
                .chunkBytes(chunkBytes)
                .arrival(arrival)
                .writers(writers)
                .flushS(flushS)
                .headerS(headerS)
                .spaceInAdvanceBytes(spaceInAdvanceBytes)
                .bufferS(bufferS)
                .bufferAssumed(bufferAssumed)
                .fileLimitBytes(fileLimitBytes)
                .fileSystems(fileSystems)
                .stallLimitMs(stallLimitMs)
                .risk(risk)
                .validDays(validDays)
                .margins(margins)
                .longestStallMs(ownLongestStallMs());
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

    /**
     * Collects the values of a session; units and meanings as there. Every one must be said, but for the note, the mix,
     * the headers, the space, the risk and the days, which are usually {@code ""}, none, 0, 0, {@value #USUAL_RISK} and
     * {@value #USUAL_VALID_DAYS}; a longest stall of 0 follows from the buffer. Checks no range. Confined to one thread.
     */
    public static final class Builder {
        private @Nullable String name;
        private @Nullable String title;
        private String about = "";
        private @Nullable SessionKind kind;
        private @Nullable List<TrackGroup> groups;
        private List<TrackGroup> mix = List.of();
        private @Nullable Long lengthS;
        private @Nullable FileLayout layout;
        private @Nullable Integer chunkBytes;
        private @Nullable Arrival arrival;
        private @Nullable Integer writers;
        private @Nullable Double flushS;
        private double headerS;
        private long spaceInAdvanceBytes;
        private @Nullable Double bufferS;
        private @Nullable Boolean bufferAssumed;
        private @Nullable Long fileLimitBytes;
        private @Nullable List<String> fileSystems;
        private @Nullable Long stallLimitMs;
        private double risk = USUAL_RISK;
        private int validDays = USUAL_VALID_DAYS;
        private @Nullable Double marginBuffer;
        private @Nullable Double marginRate;
        private @Nullable Double marginPort;
        private @Nullable Double marginPlayback;
        private @Nullable Long longestStallMs;
        private @Nullable Long closeMs;

        private Builder() {}

        public Builder name(String value) {
            name = value;
            return this;
        }

        public Builder title(String value) {
            title = value;
            return this;
        }

        public Builder about(String value) {
            about = value;
            return this;
        }

        public Builder kind(SessionKind value) {
            kind = value;
            return this;
        }

        public Builder groups(List<TrackGroup> value) {
            groups = value;
            return this;
        }

        public Builder mix(List<TrackGroup> value) {
            mix = value;
            return this;
        }

        public Builder lengthS(long value) {
            lengthS = value;
            return this;
        }

        public Builder layout(FileLayout value) {
            layout = value;
            return this;
        }

        public Builder chunkBytes(int value) {
            chunkBytes = value;
            return this;
        }

        public Builder arrival(Arrival value) {
            arrival = value;
            return this;
        }

        public Builder writers(int value) {
            writers = value;
            return this;
        }

        public Builder flushS(double value) {
            flushS = value;
            return this;
        }

        public Builder headerS(double value) {
            headerS = value;
            return this;
        }

        public Builder spaceInAdvanceBytes(long value) {
            spaceInAdvanceBytes = value;
            return this;
        }

        public Builder bufferS(double value) {
            bufferS = value;
            return this;
        }

        public Builder bufferAssumed(boolean value) {
            bufferAssumed = value;
            return this;
        }

        public Builder fileLimitBytes(long value) {
            fileLimitBytes = value;
            return this;
        }

        public Builder fileSystems(List<String> value) {
            fileSystems = value;
            return this;
        }

        public Builder stallLimitMs(long value) {
            stallLimitMs = value;
            return this;
        }

        public Builder risk(double value) {
            risk = value;
            return this;
        }

        public Builder validDays(int value) {
            validDays = value;
            return this;
        }

        public Builder marginBuffer(double value) {
            marginBuffer = value;
            return this;
        }

        public Builder marginRate(double value) {
            marginRate = value;
            return this;
        }

        public Builder marginPort(double value) {
            marginPort = value;
            return this;
        }

        public Builder marginPlayback(double value) {
            marginPlayback = value;
            return this;
        }

        public Builder longestStallMs(long value) {
            longestStallMs = value;
            return this;
        }

        public Builder closeMs(long value) {
            closeMs = value;
            return this;
        }

        public Builder margins(Margins margins) {
            return marginBuffer(margins.buffer())
                    .marginRate(margins.rate())
                    .marginPort(margins.port())
                    .marginPlayback(margins.playback())
                    .longestStallMs(margins.longestStallMs())
                    .closeMs(margins.closeMs());
        }

        /**
         * The session.
         *
         * @throws IllegalStateException if a value was not said
         */
        public Session build() {
            Session session = session(longestStallMs == null ? 0 : longestStallMs);
            return said(longestStallMs, "longestStallMs") > 0 ? session : session(session.usualLongestStallMs());
        }

        private Session session(long stallMs) {
            return new Session(
                    said(name, "name"),
                    said(title, "title"),
                    about,
                    said(kind, "kind"),
                    said(groups, "groups"),
                    mix,
                    said(lengthS, "lengthS"),
                    said(layout, "layout"),
                    said(chunkBytes, "chunkBytes"),
                    said(arrival, "arrival"),
                    said(writers, "writers"),
                    said(flushS, "flushS"),
                    headerS,
                    spaceInAdvanceBytes,
                    said(bufferS, "bufferS"),
                    said(bufferAssumed, "bufferAssumed"),
                    said(fileLimitBytes, "fileLimitBytes"),
                    said(fileSystems, "fileSystems"),
                    said(stallLimitMs, "stallLimitMs"),
                    risk,
                    validDays,
                    new Margins(
                            said(marginBuffer, "marginBuffer"),
                            said(marginRate, "marginRate"),
                            said(marginPort, "marginPort"),
                            said(marginPlayback, "marginPlayback"),
                            stallMs,
                            said(closeMs, "closeMs")));
        }

        private static <T> T said(@Nullable T value, String what) {
            if (value == null) {
                throw new IllegalStateException("nothing was said about " + what);
            }
            return value;
        }
    }
}
