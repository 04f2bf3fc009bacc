package tracksoak.profiles;

import java.util.ArrayList;
import java.util.List;

/**
 * What will be recorded (or played), and the margin asked of a drive. Immutable; made by {@link SessionReader}, which
 * checks every range.
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
 * @param bufferS what the recorder can hold per track, in s
 * @param bufferAssumed true where nobody has measured the recorder's buffer
 * @param fileLimitBytes largest file the recorder writes before it starts the next one, in bytes
 * @param fileSystems file systems the recorder accepts, lower case, in the session's order
 * @param stallLimitMs an interval without a finished chunk longer than this is a stall, in ms
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
        double bufferS,
        boolean bufferAssumed,
        long fileLimitBytes,
        List<String> fileSystems,
        long stallLimitMs,
        int validDays,
        Margins margins) {

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
}
