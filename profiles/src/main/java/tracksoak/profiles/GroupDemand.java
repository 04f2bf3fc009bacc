package tracksoak.profiles;

/**
 * What one group of tracks needs. Its streams are all alike.
 *
 * @param group the tracks
 * @param mix true for the tracks a mixdown writes
 * @param streams how many files are open at once for this group: one per track, or one where tracks are interleaved
 * @param lengthS length of the session in s
 */
public record GroupDemand(TrackGroup group, boolean mix, int streams, long lengthS) {

    /** Bytes per second of one track. */
    public long bytesPerSecondPerTrack() {
        return group.bytesPerSecondPerTrack();
    }

    /** Bytes per minute of one track. */
    public long bytesPerMinutePerTrack() {
        return 60 * bytesPerSecondPerTrack();
    }

    /** Bytes per second of the whole group. */
    public long bytesPerSecond() {
        return group.bytesPerSecond();
    }

    /** Bytes of samples of the whole group for the whole length. */
    public long dataBytes() {
        return bytesPerSecond() * lengthS;
    }

    /** Bytes of one sample of every track in one file; only whole frames are stored. */
    public int frameBytes() {
        return group.tracks() / streams * group.format().bytesPerSample();
    }

    /** How each stream of the group is cut into files under a limit, in so many seconds. */
    Splits splits(FileLimit limit, long seconds) {
        return Splits.of(frameBytes(), bytesPerSecond() / streams * seconds, limit);
    }
}
