package tracksoak.bench.timecode;

/**
 * Reads linear timecode out of samples as they come: of any level, either polarity, with noise and an offset, at speeds from
 * 0.7 to 1.5 of 25 frames a second. Every transition is placed between samples by a straight line through the two beside it.
 * Memory does not grow. One thread.
 */
public final class LtcDecoder {

    /** What is told of every whole frame. */
    @FunctionalInterface
    public interface Listener {

        /**
         * A frame has ended.
         *
         * @param word see {@link LtcWord}; its digits are those of a time
         */
        void frame(long word);
    }

    private static final int BOUNDARIES = 128;
    private static final int EDGES = 4096;
    private static final double LEAST_SWING = 2e-4;
    private static final double ATTACK = 0.3;
    private static final double RELEASE_S = 0.02;
    private static final double HYSTERESIS = 0.25;

    /** What noise taught of the length of bits is forgotten where no frame has borne it out for so many. */
    private static final int UNPROVEN_BITS = 4 * LtcWord.BITS;

    private final Listener listener;
    private final double nominal;
    private final double release;
    private final double[] boundaries = new double[BOUNDARIES];
    private final double[] edges = new double[EDGES];

    private long at;
    private double high;
    private double low;
    private boolean isHigh;
    private boolean wasAbove;
    private double before;
    private double crossing;
    private double lastEdge = -1e9;
    private double lastFrame = -1e9;
    private double bitLength;
    private boolean half;
    private double halfLength;
    private long edgeCount;
    private long bits;
    private long word;
    private int sync;

    /**
     * @param sampleRateHz samples per second of what will be fed
     * @param listener called during {@link #feed}
     */
    public LtcDecoder(int sampleRateHz, Listener listener) {
        this(sampleRateHz, 0, listener);
    }

    /** @param first number of the first sample that will be fed */
    LtcDecoder(int sampleRateHz, long first, Listener listener) {
        at = first;
        this.listener = listener;
        nominal = sampleRateHz / 2000.0;
        bitLength = nominal;
        release = 1 / (RELEASE_S * sampleRateHz);
    }

    /** Takes the next samples. */
    public void feed(float[] samples, int from, int count) {
        double top = high;
        double bottom = low;
        double last = before;
        for (int i = from; i < from + count; i++) {
            double x = samples[i];
            double middle = (top + bottom) / 2;
            double reach = (top - bottom) / 2;
            top += x > top ? (x - top) * ATTACK : -reach * release;
            bottom += x < bottom ? (x - bottom) * ATTACK : reach * release;
            boolean above = x >= middle;
            if (above != wasAbove) {
                wasAbove = above;
                double share = x == last ? 1 : (middle - last) / (x - last);
                crossing = at - 1 + Math.max(0, Math.min(1, share));
            }
            if (isHigh ? x < middle - HYSTERESIS * reach : x > middle + HYSTERESIS * reach) {
                if (reach > LEAST_SWING) {
                    isHigh = !isHigh;
                    edge(crossing);
                }
            }
            last = x;
            at++;
        }
        // a sample that is no number would stay in the envelope for good
        high = Double.isFinite(top) ? top : 0;
        low = Double.isFinite(bottom) ? bottom : 0;
        before = last;
    }

    private void edge(double time) {
        double length = time - lastEdge;
        edges[(int) (edgeCount++ % EDGES)] = time;
        double previous = lastEdge;
        lastEdge = time;
        if (!(length > 0.3 * bitLength && length < 1.5 * bitLength)) {
            if (time - lastFrame > UNPROVEN_BITS * nominal) {
                bitLength = nominal;
            }
            restart(time);
        } else if (length >= 0.75 * bitLength) {
            if (half) {
                // the half before belonged to something else: this whole one shows where bits begin
                restart(previous);
            }
            learn(length);
            bit(0, time);
        } else if (half) {
            half = false;
            learn(length + halfLength);
            bit(1, time);
        } else {
            half = true;
            halfLength = length;
        }
    }

    private void learn(double length) {
        bitLength += (length - bitLength) * 0.05;
        bitLength = Math.max(0.6 * nominal, Math.min(1.5 * nominal, bitLength));
    }

    private void restart(double boundary) {
        half = false;
        bits = 0;
        boundaries[0] = boundary;
    }

    private void bit(int value, double time) {
        word = (word >>> 1) | ((long) (sync & 1) << 63);
        sync = (sync >>> 1) | (value << 15);
        bits++;
        boundaries[(int) (bits % BOUNDARIES)] = time;
        if (sync == LtcWord.SYNC && bits >= LtcWord.BITS && LtcWord.isTime(word)) {
            lastFrame = time;
            listener.frame(word);
        }
    }

    /**
     * Where a bit of the frame that has just ended began, in samples, by the number of the first one fed.
     *
     * @param bit 0…80; 80 is the end of the last
     */
    public double boundary(int bit) {
        return boundaries[(int) ((bits - LtcWord.BITS + bit) % BOUNDARIES)];
    }

    /** How many transitions there were so far. */
    long edges() {
        return edgeCount;
    }

    /** When transition number {@code index} was, in samples; the last {@value #EDGES} are kept. */
    double edgeAt(long index) {
        return edges[(int) (index % EDGES)];
    }

    /** The oldest transition kept. */
    long oldestEdge() {
        return Math.max(0, edgeCount - EDGES);
    }
}
