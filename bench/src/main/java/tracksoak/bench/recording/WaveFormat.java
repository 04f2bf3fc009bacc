package tracksoak.bench.recording;

import java.util.Optional;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Quantity;

/**
 * How the samples of a WAVE file are stored.
 *
 * @param channels tracks in the file, sample by sample
 * @param sampleRateHz samples per second of each
 * @param isFloat IEEE 754 numbers, else whole ones
 * @param bytesPerSample of one track: 1 to 4, or 8 for floats
 * @param validBits bits of it that are used
 */
public record WaveFormat(int channels, int sampleRateHz, boolean isFloat, int bytesPerSample, int validBits) {

    /** Bytes of one sample of every track. */
    public int frameBytes() {
        return channels * bytesPerSample;
    }

    /** Bytes per second of all tracks. */
    public long bytesPerSecond() {
        return (long) frameBytes() * sampleRateHz;
    }

    /** The smallest step between two values, full scale being 1. */
    public double step() {
        return isFloat ? 1.0 / (1 << 24) : 1.0 / (1L << (validBits - 1));
    }

    /** The same as sessions know it; empty where they know none such. */
    public Optional<SampleFormat> sampleFormat() {
        return Optional.ofNullable(
                switch (bytesPerSample) {
                    case 2 -> SampleFormat.PCM_16;
                    case 3 -> SampleFormat.PCM_24;
                    case 4 -> isFloat ? SampleFormat.FLOAT_32 : SampleFormat.PCM_32;
                    default -> null;
                });
    }

    /** {@code 48 kHz, 24-bit}. */
    public String words() {
        return Quantity.plain(sampleRateHz / 1000.0) + " kHz, " + 8 * bytesPerSample + "-bit"
                + (isFloat ? " float" : "")
                + (!isFloat && validBits != 8 * bytesPerSample ? " (" + validBits + " used)" : "");
    }

    /** {@link #words} with the tracks where they are several. */
    public String wholeWords() {
        return channels == 1 ? words() : Count.of(channels, "track") + ", " + words();
    }
}
