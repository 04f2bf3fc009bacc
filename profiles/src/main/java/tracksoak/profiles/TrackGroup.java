package tracksoak.profiles;

import java.util.List;
import java.util.stream.Collectors;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Quantity;

/**
 * Tracks that share a sample rate and a word length.
 *
 * @param tracks how many, at least 1
 * @param sampleRateHz samples per second of each track, in Hz
 * @param format how one sample is stored
 */
public record TrackGroup(int tracks, int sampleRateHz, SampleFormat format) {

    /** {@code 32 tracks, 48 kHz, 24-bit}; several groups are joined by {@code +}. */
    public static String words(List<TrackGroup> groups) {
        return groups.stream()
                .map(group -> Count.of(group.tracks, "track") + ", " + Quantity.plain(group.sampleRateHz / 1000.0)
                        + " kHz, " + group.format.words())
                .collect(Collectors.joining(" + "));
    }

    /** Bytes per second of one track: sample rate × bytes per sample. */
    public long bytesPerSecondPerTrack() {
        return (long) sampleRateHz * format.bytesPerSample();
    }

    /** Bytes per second of all tracks of the group. */
    public long bytesPerSecond() {
        return tracks * bytesPerSecondPerTrack();
    }
}
