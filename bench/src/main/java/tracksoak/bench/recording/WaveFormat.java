package tracksoak.bench.recording;

import java.nio.ByteBuffer;
import java.util.Optional;
import tracksoak.profiles.SampleFormat;
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

    /** The same of one track alone. */
    public WaveFormat mono() {
        return new WaveFormat(1, sampleRateHz, isFloat, bytesPerSample, validBits);
    }

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

    /** Silence, eight bytes of it: whole numbers of one byte are stored with 128 as their middle. */
    public long silentWord() {
        return bytesPerSample == 1 ? 0x8080_8080_8080_8080L : 0;
    }

    /** Whether bytes with every bit set, as erased memory has them, are all but silence, so that they look like a mute. */
    public boolean allOnesAreQuiet() {
        return !isFloat && bytesPerSample > 1;
    }

    /** Which bits of eight bytes tell silence from sound: nought has two signs in floats, and is silent with both. */
    public long countingBits() {
        return !isFloat ? -1 : bytesPerSample == 4 ? 0x7FFF_FFFF_7FFF_FFFFL : Long.MAX_VALUE;
    }

    /** Whether a stored sample of one track is silence. */
    public boolean silent(ByteBuffer bytes, int at) {
        return switch (bytesPerSample) {
            case 1 -> bytes.get(at) == (byte) 0x80;
            case 2 -> bytes.getShort(at) == 0;
            case 3 -> bytes.getShort(at) == 0 && bytes.get(at + 2) == 0;
            case 4 -> (isFloat ? bytes.getInt(at) << 1 : bytes.getInt(at)) == 0;
            default -> bytes.getLong(at) << 1 == 0;
        };
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
}
