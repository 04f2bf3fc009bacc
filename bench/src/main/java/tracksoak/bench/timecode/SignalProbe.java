package tracksoak.bench.timecode;

import java.io.IOException;

/** Tells by a few short specimens whether a track carries the test signal, or another timecode. */
public final class SignalProbe {

    /** What a track carries. */
    public enum Carries {
        NOTHING_OF_IT,
        OTHER_TIMECODE,
        TEST_SIGNAL
    }

    private static final double SPECIMEN_S = 0.35;
    private static final double EVERY_S = 20;
    private static final int MOST = 24;
    private static final int GLANCE = 1024;
    private static final double FLAT = 0.55;

    /** Seconds, 31 bits: long enough for bits of both kinds, short enough to be looked at often. */
    private static final double LOOK_S = 1 / 64.0;

    private static final double HYSTERESIS = 0.25;
    private static final double SHORTEST_BIT = 0.6;
    private static final double LONGEST_BIT = 1.5;
    private static final int LEAST_STEPS = 16;
    private static final int LEAST_OF_A_KIND = 2;
    private static final int MOST_ODD = 8;

    private SignalProbe() {}

    /** Gives samples of a track; fewer where it ends. */
    @FunctionalInterface
    public interface Track {
        float[] values(long from, int count) throws IOException;
    }

    /** Looks at one track. */
    public static Carries of(int rate, long samples, Track track) throws IOException {
        int length = (int) (SPECIMEN_S * rate);
        long room = Math.max(0, samples - length);
        int specimens = (int) Math.min(MOST, 2 + room / (EVERY_S * rate));
        Carries best = Carries.NOTHING_OF_IT;
        for (int i = 0; i < specimens; i++) {
            long at = room * i / Math.max(1, specimens - 1);
            if (!flat(track.values(at + length / 2, GLANCE))) {
                continue;
            }
            Carries here = read(track.values(at, length), rate);
            if (here == Carries.TEST_SIGNAL) {
                return here;
            }
            best = here == Carries.NOTHING_OF_IT ? best : here;
        }
        return best;
    }

    /** Looks at one place of a track, where samples are {@link #flat}: at the steps between them first, as few tones come in two lengths. */
    public static Carries at(int rate, long at, Track track) throws IOException {
        return inBits(track.values(at, (int) (LOOK_S * rate)), rate)
                ? read(track.values(at, (int) (SPECIMEN_S * rate)), rate)
                : Carries.NOTHING_OF_IT;
    }

    /** Whether the steps from one level to the other are a bit or half a bit apart, and there are both. */
    private static boolean inBits(float[] look, int rate) {
        float top = Float.NEGATIVE_INFINITY;
        float bottom = Float.POSITIVE_INFINITY;
        for (float value : look) {
            top = Math.max(top, value);
            bottom = Math.min(bottom, value);
        }
        double middle = (top + bottom) / 2.0;
        double hysteresis = (top - bottom) / 2.0 * HYSTERESIS;
        int[] apart = new int[look.length];
        int steps = 0;
        int last = -1;
        boolean high = look.length > 0 && look[0] > middle;
        for (int i = 0; i < look.length; i++) {
            if (high ? look[i] < middle - hysteresis : look[i] > middle + hysteresis) {
                high = !high;
                if (last >= 0) {
                    apart[steps++] = i - last;
                }
                last = i;
            }
        }
        return steps >= LEAST_STEPS && twoLengths(apart, steps, rate);
    }

    private static boolean twoLengths(int[] apart, int steps, int rate) {
        double nominal = 2.0 * rate / TestSignal.HALVES_PER_SECOND;
        int bit = 0;
        for (int i = 0; i < steps; i++) {
            bit = apart[i] < LONGEST_BIT * nominal ? Math.max(bit, apart[i]) : bit;
        }
        int whole = 0;
        int half = 0;
        for (int i = 0; i < steps; i++) {
            whole += Math.abs(apart[i] - bit) <= bit / 5 + 1 ? 1 : 0;
            half += Math.abs(2 * apart[i] - bit) <= bit / 3 + 2 ? 1 : 0;
        }
        return bit >= SHORTEST_BIT * nominal
                && Math.min(whole, half) >= LEAST_OF_A_KIND
                && (steps - whole - half) * MOST_ODD <= steps;
    }

    /** Timecode goes to and fro between two levels; music hardly ever does. */
    public static boolean flat(float[] glance) {
        double sum = 0;
        for (float value : glance) {
            sum += value;
        }
        double middle = sum / Math.max(1, glance.length);
        double peak = 0;
        double size = 0;
        for (float value : glance) {
            double away = Math.abs(value - middle);
            peak = Math.max(peak, away);
            size += away;
        }
        return peak > 0 && size / glance.length > FLAT * peak;
    }

    private static Carries read(float[] specimen, int rate) {
        int[] frames = new int[2];
        LtcDecoder decoder = new LtcDecoder(rate, word -> frames[TestSignal.isOwn(word) ? 0 : 1]++);
        decoder.feed(specimen, 0, specimen.length);
        return frames[0] > 0 ? Carries.TEST_SIGNAL : frames[1] > 1 ? Carries.OTHER_TIMECODE : Carries.NOTHING_OF_IT;
    }
}
