package tracksoak.bench.inspect;

import java.nio.ByteBuffer;
import java.util.Arrays;
import tracksoak.bench.recording.WaveFormat;

/**
 * Looks at every few samples of the tracks that share a file for runs of zeros of one of them. What it finds is near: whoever hears of
 * it looks again. One thread.
 */
final class ChannelZeros {

    /** Hears what is found; places are samples. */
    interface Found {
        void zeros(int channel, long from, long until);
    }

    /** Every so manieth sample is looked at. */
    static final int STEP = 32;

    private static final int ENOUGH = 4;

    private final WaveFormat format;
    private final Found found;
    private final long[] since;
    private final boolean[] sounds;

    ChannelZeros(WaveFormat format, Found found) {
        this.format = format;
        this.found = found;
        since = new long[format.channels()];
        Arrays.fill(since, -1);
        sounds = new boolean[format.channels()];
    }

    /** Takes the next samples; {@code at} is the number of the first. */
    void block(ByteBuffer bytes, int frames, long at) {
        int first = (int) Math.floorMod(-at, (long) STEP);
        for (int frame = first; frame < frames; frame += STEP) {
            int place = frame * format.frameBytes();
            for (int channel = 0; channel < since.length; channel++, place += format.bytesPerSample()) {
                boolean zero = zero(bytes, place);
                if (zero && since[channel] < 0) {
                    since[channel] = at + frame;
                } else if (!zero) {
                    sounds[channel] = true;
                    if (since[channel] >= 0) {
                        tell(channel, at + frame);
                    }
                }
            }
        }
    }

    private void tell(int channel, long until) {
        if (until - since[channel] >= (long) ENOUGH * STEP) {
            found.zeros(channel, since[channel], until);
        }
        since[channel] = -1;
    }

    private boolean zero(ByteBuffer bytes, int at) {
        return switch (format.bytesPerSample()) {
            case 1 -> bytes.get(at) == (byte) 0x80;
            case 2 -> bytes.getShort(at) == 0;
            case 3 -> bytes.getShort(at) == 0 && bytes.get(at + 2) == 0;
            case 4 -> (format.isFloat() ? bytes.getInt(at) << 1 : bytes.getInt(at)) == 0;
            default -> bytes.getLong(at) << 1 == 0;
        };
    }

    /** Nothing more comes; {@code end} is the number of samples. */
    void end(long end) {
        for (int channel = 0; channel < since.length; channel++) {
            if (since[channel] >= 0) {
                tell(channel, end);
            }
        }
    }

    /** Whether a track has shown anything but zeros so far. */
    boolean sounds(int channel) {
        return sounds[channel];
    }
}
