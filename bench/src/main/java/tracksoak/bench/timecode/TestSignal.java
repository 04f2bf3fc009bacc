package tracksoak.bench.timecode;

/**
 * The test signal at one sample rate: linear timecode at 25 frames a second from 00:00:00:00 on, with its peaks at −18 dBFS.
 * Its user bits tell it from any other timecode. Every flat top has a height and a slope of its own, within 6 % of the full
 * height, so that no two stretches of it are alike and a single sample can be missed. Immutable but for a cache: one thread.
 */
public final class TestSignal {

    /** Frames per second. */
    public static final int FRAMES_PER_SECOND = 25;

    /** Peaks, full scale being 1: −18 dBFS. */
    public static final double PEAK = Math.pow(10, -18 / 20.0);

    /** The longest signal: the code begins anew after a day. */
    public static final long LONGEST_S = 86_400;

    static final int HALVES = 2 * LtcWord.BITS;
    static final int HALVES_PER_SECOND = HALVES * FRAMES_PER_SECOND;
    private static final int MARK = 0x7A5C;
    private static final long FRAMES_PER_DAY = LONGEST_S * FRAMES_PER_SECOND;

    /** Half the rise time, 25 µs, in halves of a bit; SMPTE ST 12-1 asks for a rise of 40 ± 10 µs. */
    private static final double RISE = 25e-6 * HALVES_PER_SECOND;

    private static final double HEIGHTS = 0.03;
    private static final double SLOPE = 0.015;

    private final int sampleRateHz;
    private final boolean[] begins = new boolean[HALVES + 1];
    private final double[] top = new double[HALVES + 1];
    private final int[] age = new int[HALVES];
    private double topBefore;
    private long cached = -1;

    public TestSignal(int sampleRateHz) {
        this.sampleRateHz = sampleRateHz;
    }

    /** The user bits of a frame: a mark, and what is made of its number. */
    static int userBits(long frame) {
        return MARK | ((int) (mix(frame) >>> 48) << 16);
    }

    /** Whether a frame of timecode is one of the test signal. */
    public static boolean isOwn(long word) {
        return !LtcWord.dropFrame(word)
                && LtcWord.frames(word) < FRAMES_PER_SECOND
                && LtcWord.userBits(word) == userBits(LtcWord.frameNumber(word, FRAMES_PER_SECOND));
    }

    /** The word of a frame of it. */
    static long word(long frame) {
        return LtcWord.of(frame, FRAMES_PER_SECOND, userBits(frame));
    }

    /** Whether there is a transition where a half of a bit begins. */
    static boolean transition(long half) {
        return half % 2 == 0
                || LtcWord.bit(
                        word(Math.floorMod(Math.floorDiv(half, HALVES), FRAMES_PER_DAY)), (int) (half % HALVES / 2));
    }

    /** Samples until a half of a bit begins. */
    double startOf(long half) {
        return (double) half * sampleRateHz / HALVES_PER_SECOND;
    }

    /**
     * Its samples.
     *
     * @param from the first one, 0 being where the signal begins; before that it is silent
     * @param out filled from its beginning
     */
    public void fill(long from, float[] out, int count) {
        int i = 0;
        for (; i < count && from + i < 0; i++) {
            out[i] = 0;
        }
        if (i == count) {
            return;
        }
        long scaled = (from + i) * HALVES_PER_SECOND;
        long half = scaled / sampleRateHz;
        long phase = scaled % sampleRateHz;
        for (; i < count; i++) {
            out[i] = (float) value(half, (double) phase / sampleRateHz);
            phase += HALVES_PER_SECOND;
            if (phase >= sampleRateHz) {
                phase -= sampleRateHz;
                half++;
            }
        }
    }

    private double value(long half, double phase) {
        long frame = half / HALVES;
        if (frame != cached) {
            load(frame);
        }
        int h = (int) (half - frame * HALVES);
        double now = top[h] * (1 - SLOPE * (age[h] + phase));
        if (phase < RISE && begins[h]) {
            return step(ending(h), now, phase / RISE);
        }
        if (phase > 1 - RISE && begins[h + 1]) {
            return step(now, top[h + 1], (phase - 1) / RISE);
        }
        return now;
    }

    /** Where what lies before a transition ends. */
    private double ending(int h) {
        return h == 0 ? topBefore * (1 - SLOPE) : top[h - 1] * (1 - SLOPE * (age[h - 1] + 1));
    }

    private static double step(double from, double to, double x) {
        double share = 0.5 + 0.5 * x * (1.5 - 0.5 * x * x);
        return from + (to - from) * share;
    }

    private void load(long frame) {
        long word = word(frame % FRAMES_PER_DAY);
        boolean up = false;
        for (int h = 0; h < HALVES; h++) {
            begins[h] = h % 2 == 0 || LtcWord.bit(word, h / 2);
            if (begins[h]) {
                up = !up;
                top[h] = height(frame * HALVES + h, up);
                age[h] = 0;
            } else {
                top[h] = top[h - 1];
                age[h] = age[h - 1] + 1;
            }
        }
        // every frame begins upwards, as its number of transitions is even, and ends in a half of the last bit, a 1
        begins[HALVES] = true;
        top[HALVES] = height((frame + 1) * HALVES, true);
        topBefore = frame == 0 ? 0 : height(frame * HALVES - 1, false);
        cached = frame;
    }

    private static double height(long half, boolean up) {
        double height = PEAK * (1 - HEIGHTS * (mix(half) >>> 56) / 255.0);
        return up ? height : -height;
    }

    private static long mix(long value) {
        long mixed = (value + 1) * 0x9E37_79B9_7F4A_7C15L;
        mixed = (mixed ^ (mixed >>> 32)) * 0xD6E8_FEB8_6659_FD93L;
        return mixed ^ (mixed >>> 32);
    }
}
