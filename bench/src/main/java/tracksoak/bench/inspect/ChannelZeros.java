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
    private final long[] until;
    private final boolean[] sounds;

    ChannelZeros(WaveFormat format, Found found) {
        this.format = format;
        this.found = found;
        since = new long[format.channels()];
        Arrays.fill(since, -1);
        until = new long[format.channels()];
        sounds = new boolean[format.channels()];
    }

    /** Takes the next samples; {@code at} is the number of the first. */
    void block(ByteBuffer bytes, int frames, long at) {
        for (int channel = 0; channel < since.length; channel++) {
            if (since[channel] >= 0) {
                follow(bytes, channel, 0, frames, at);
            }
        }
        for (int frame = (int) Math.floorMod(-at, (long) STEP); frame < frames; frame += STEP) {
            int place = frame * format.frameBytes();
            for (int channel = 0; channel < since.length; channel++, place += format.bytesPerSample()) {
                if (!format.silent(bytes, place)) {
                    sounds[channel] = true;
                } else if (at + frame >= until[channel]) {
                    since[channel] = at + frame;
                    follow(bytes, channel, frame + 1, frames, at);
                }
            }
        }
    }

    /** A tone crosses zero as well, and may do so wherever it is looked at: a run is looked at whole. */
    private void follow(ByteBuffer bytes, int channel, int from, int frames, long at) {
        int frame = from;
        int place = channel * format.bytesPerSample();
        while (frame < frames && format.silent(bytes, place + frame * format.frameBytes())) {
            frame++;
        }
        until[channel] = at + frame;
        if (frame < frames) {
            sounds[channel] = true;
            tell(channel, at + frame);
        }
    }

    private void tell(int channel, long end) {
        if (end - since[channel] > (ENOUGH - 1L) * STEP) {
            found.zeros(channel, since[channel], end);
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
