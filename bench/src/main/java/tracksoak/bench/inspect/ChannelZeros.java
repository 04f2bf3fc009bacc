package tracksoak.bench.inspect;

import java.nio.ByteBuffer;
import java.util.Arrays;
import tracksoak.bench.recording.WaveFormat;

/**
 * Looks at every few samples of the tracks that share a file for runs of silence of one of them, and at all of those it finds. Where a run
 * begins is near: whoever hears of it looks again. One thread.
 */
final class ChannelZeros {

    /** Hears what is found; places are samples, and the end is exact. */
    interface Found {
        void zeros(int channel, long from, long until);
    }

    /** One of so many samples is looked at. */
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
        for (int channel = 0; channel < since.length; channel++) {
            int place = channel * format.bytesPerSample();
            int frame = since[channel] < 0 ? first : 0;
            while (frame < frames) {
                boolean zero = format.silent(bytes, place + frame * format.frameBytes());
                if (zero && since[channel] < 0) {
                    since[channel] = at + frame;
                } else if (!zero) {
                    sounds[channel] = true;
                    if (since[channel] >= 0) {
                        tell(channel, at + frame);
                    }
                }
                // a tone crosses zero as well, and may do so wherever it is looked at: a run is looked at whole
                frame = since[channel] < 0 ? frame + STEP - Math.floorMod(frame - first, STEP) : frame + 1;
            }
        }
    }

    private void tell(int channel, long until) {
        if (until - since[channel] > (ENOUGH - 1L) * STEP) {
            found.zeros(channel, since[channel], until);
        }
        since[channel] = -1;
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
