package tracksoak.profiles;

/**
 * Tracks that share a sample rate and a word length.
 *
 * @param tracks how many, at least 1
 * @param sampleRateHz samples per second of each track, in Hz
 * @param format how one sample is stored
 */
public record TrackGroup(int tracks, int sampleRateHz, SampleFormat format) {

    /** Bytes per second of one track: sample rate × bytes per sample. */
    public long bytesPerSecondPerTrack() {
        return (long) sampleRateHz * format.bytesPerSample();
    }

    /** Bytes per second of all tracks of the group. */
    public long bytesPerSecond() {
        return tracks * bytesPerSecondPerTrack();
    }
}
