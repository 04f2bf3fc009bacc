package tracksoak.profiles;

import java.util.ArrayList;
import java.util.List;

/**
 * What a session needs of a drive, by arithmetic alone: sample rate × bytes per sample × tracks. MB and GB are powers of
 * 1,000. Files are counted with a 44-byte WAVE head and hold whole frames. For a mixdown the tracks read and the mix
 * written both need room; for a playback the tracks read do. Immutable.
 *
 * @param session the session
 * @param groups one entry per group of tracks, those of a mix last
 */
public record Demand(Session session, List<GroupDemand> groups) {
    public Demand {
        groups = List.copyOf(groups);
    }

    /** The demand of a session. */
    public static Demand of(Session session) {
        List<GroupDemand> groups = new ArrayList<>();
        for (TrackGroup group : session.groups()) {
            groups.add(groupOf(session, group, false));
        }
        for (TrackGroup group : session.mix()) {
            groups.add(groupOf(session, group, true));
        }
        return new Demand(session, groups);
    }

    private static GroupDemand groupOf(Session session, TrackGroup group, boolean mix) {
        int streams = session.layout() == FileLayout.INTERLEAVED ? 1 : group.tracks();
        return new GroupDemand(group, mix, streams, session.lengthS());
    }

    /** Everything that crosses the port while the session runs, written and read, in bytes per second. */
    public long bytesPerSecond() {
        return groups.stream().mapToLong(GroupDemand::bytesPerSecond).sum();
    }

    /** As {@link #bytesPerSecond()}, per minute. */
    public long bytesPerMinute() {
        return 60 * bytesPerSecond();
    }

    /** As {@link #bytesPerSecond()}, per hour. */
    public long bytesPerHour() {
        return 3600 * bytesPerSecond();
    }

    /** What is written while the session runs, in bytes per second: 0 for a playback, the mix for a mixdown. */
    public long writtenBytesPerSecond() {
        return switch (session.kind()) {
            case RECORDING, ARCHIVE -> bytesPerSecond();
            case PLAYBACK -> 0;
            case MIXDOWN -> bytesPerSecond() - session.bytesPerSecond();
        };
    }

    /** What is read while the session runs, in bytes per second; an archive is read back afterwards, not meanwhile. */
    public long readBytesPerSecond() {
        return bytesPerSecond() - writtenBytesPerSecond();
    }

    /** Bytes of samples for the whole length. */
    public long dataBytes() {
        return groups.stream().mapToLong(GroupDemand::dataBytes).sum();
    }

    /** Files open at the same time. */
    public int openFiles() {
        return groups.stream().mapToInt(GroupDemand::streams).sum();
    }

    /** Room the whole session takes on a file system, in one folder. */
    public SessionRoom roomOn(FileSystemShape shape) {
        return roomOn(shape, session.lengthS());
    }

    SessionRoom roomOn(FileSystemShape shape, long seconds) {
        FileLimit limit = new FileLimit(Math.min(session.fileLimitBytes(), shape.maxFileBytes()));
        long files = 0;
        long fileBytes = 0;
        long clusters = 0;
        for (GroupDemand group : groups) {
            Splits splits = group.splits(limit, seconds);
            long full = FileLimit.fileBytes(splits.dataPerFileBytes());
            long last = FileLimit.fileBytes(splits.lastFileDataBytes());
            files += group.streams() * splits.files();
            fileBytes += group.streams() * splits.fileBytes();
            clusters += group.streams() * ((splits.files() - 1) * shape.clusters(full) + shape.clusters(last));
        }
        return new SessionRoom(
                files,
                fileBytes,
                clusters * shape.clusterBytes(),
                shape.directoryBytes(files),
                session.aheadBytes(),
                shape);
    }

    /**
     * Whole seconds of the session that fit into the free room of a file system, files and folder rounded up to clusters.
     *
     * @param freeBytes free room in bytes
     * @return s, 0 where not one second fits; not bounded by the session's length
     */
    public long secondsUntilFull(long freeBytes, FileSystemShape shape) {
        long fits = 0;
        long tooLong = Math.max(0, freeBytes) / bytesPerSecond() + 1;
        while (tooLong - fits > 1) {
            long middle = fits + (tooLong - fits) / 2;
            if (roomOn(shape, middle).totalBytes() <= freeBytes) {
                fits = middle;
            } else {
                tooLong = middle;
            }
        }
        return fits;
    }
}
