package tracksoak.bench.recording;

import java.nio.ByteBuffer;

/** Samples as they are stored, as numbers from −1 to 1. Stateless. */
public final class Samples {

    private Samples() {}

    /**
     * Takes one track out of stored samples.
     *
     * @param bytes little-endian, whole samples of every track from its beginning on
     * @param frames how many of each track
     * @param channel which track, from 0
     * @param out filled from its beginning
     */
    public static void of(ByteBuffer bytes, int frames, WaveFormat format, int channel, float[] out) {
        int step = format.frameBytes();
        int at = channel * format.bytesPerSample();
        switch (format.bytesPerSample()) {
            case 1 -> {
                for (int i = 0; i < frames; i++, at += step) {
                    out[i] = ((bytes.get(at) & 0xFF) - 128) / 128f;
                }
            }
            case 2 -> {
                for (int i = 0; i < frames; i++, at += step) {
                    out[i] = bytes.getShort(at) / 32_768f;
                }
            }
            case 3 -> {
                for (int i = 0; i < frames; i++, at += step) {
                    int value = (bytes.getShort(at) & 0xFFFF) | (bytes.get(at + 2) << 16);
                    out[i] = value / 8_388_608f;
                }
            }
            case 4 -> {
                for (int i = 0; i < frames; i++, at += step) {
                    out[i] = format.isFloat() ? bytes.getFloat(at) : bytes.getInt(at) * 0x1p-31f;
                }
            }
            default -> {
                for (int i = 0; i < frames; i++, at += step) {
                    out[i] = (float) bytes.getDouble(at);
                }
            }
        }
    }

    /**
     * One stored sample.
     *
     * @param at where its first byte lies
     */
    public static float one(ByteBuffer bytes, int at, WaveFormat format) {
        return switch (format.bytesPerSample()) {
            case 1 -> ((bytes.get(at) & 0xFF) - 128) / 128f;
            case 2 -> bytes.getShort(at) / 32_768f;
            case 3 -> ((bytes.getShort(at) & 0xFFFF) | (bytes.get(at + 2) << 16)) / 8_388_608f;
            case 4 -> format.isFloat() ? bytes.getFloat(at) : bytes.getInt(at) * 0x1p-31f;
            default -> (float) bytes.getDouble(at);
        };
    }

    /**
     * Stores samples of one track alone.
     *
     * @param samples −1 to 1; more is cut off
     * @param out little-endian, with room; its position moves on
     */
    public static void store(float[] samples, int count, WaveFormat format, ByteBuffer out) {
        double full = 1L << (8 * format.bytesPerSample() - 1);
        for (int i = 0; i < count; i++) {
            if (format.isFloat()) {
                out.putFloat(samples[i]);
                continue;
            }
            long value = Math.round(Math.max(-full, Math.min(full - 1, samples[i] * full)));
            switch (format.bytesPerSample()) {
                case 2 -> out.putShort((short) value);
                case 3 -> out.putShort((short) value).put((byte) (value >> 16));
                case 4 -> out.putInt((int) value);
                default -> throw new IllegalArgumentException("samples of " + format.bytesPerSample() + " bytes");
            }
        }
    }
}
