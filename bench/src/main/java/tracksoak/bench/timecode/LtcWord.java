package tracksoak.bench.timecode;

/**
 * One frame of linear timecode: 64 bits, the first one sent lowest, before the 16 of the sync word. Layout: SMPTE ST 12-1,
 * as in ITU-R BR.780-2. Stateless.
 */
public final class LtcWord {

    /** Bits of a frame, the sync word included. */
    public static final int BITS = 80;

    /** The sync word 0011 1111 1111 1101, the first bit sent lowest. */
    public static final int SYNC = 0xBFFC;

    private static final int DROP_FRAME = 10;
    private static final int POLARITY_25 = 59;
    private static final int POLARITY_ELSE = 27;
    private static final int SYNC_ONES = Integer.bitCount(SYNC);

    private LtcWord() {}

    /**
     * The word of a frame.
     *
     * @param frame number of the frame since midnight, below 24 hours
     * @param framesPerSecond 24, 25 or 30
     * @param userBits the eight groups of four, the first group lowest
     */
    public static long of(long frame, int framesPerSecond, int userBits) {
        long seconds = frame / framesPerSecond;
        long word = bcd(frame % framesPerSecond, 0)
                | bcd(seconds % 60, 16)
                | bcd(seconds / 60 % 60, 32)
                | bcd(seconds / 3600 % 24, 48);
        for (int group = 0; group < 8; group++) {
            word |= ((userBits >>> (4 * group)) & 0xFL) << (8 * group + 4);
        }
        boolean odd = (Long.bitCount(word) + SYNC_ONES) % 2 == 1;
        return odd ? word | (1L << polarityBit(framesPerSecond)) : word;
    }

    private static int polarityBit(int framesPerSecond) {
        return framesPerSecond == 25 ? POLARITY_25 : POLARITY_ELSE;
    }

    private static long bcd(long value, int at) {
        return (value % 10 | ((value / 10) << 8)) << at;
    }

    /** Whether the digits are those of a time of day. */
    public static boolean isTime(long word) {
        return digit(word, 0, 0xF) <= 9
                && digit(word, 16, 0xF) <= 9
                && digit(word, 32, 0xF) <= 9
                && digit(word, 48, 0xF) <= 9
                && frames(word) < 30
                && seconds(word) < 60
                && minutes(word) < 60
                && hours(word) < 24;
    }

    public static int frames(long word) {
        return digit(word, 0, 0xF) + 10 * digit(word, 8, 0x3);
    }

    public static int seconds(long word) {
        return digit(word, 16, 0xF) + 10 * digit(word, 24, 0x7);
    }

    public static int minutes(long word) {
        return digit(word, 32, 0xF) + 10 * digit(word, 40, 0x7);
    }

    public static int hours(long word) {
        return digit(word, 48, 0xF) + 10 * digit(word, 56, 0x3);
    }

    /** Whether it counts in drop frame. */
    public static boolean dropFrame(long word) {
        return ((word >>> DROP_FRAME) & 1) == 1;
    }

    /** Frames since midnight at that many a second, none dropped. */
    public static long frameNumber(long word, int framesPerSecond) {
        return ((hours(word) * 60L + minutes(word)) * 60 + seconds(word)) * framesPerSecond + frames(word);
    }

    /** The eight user groups, the first lowest. */
    public static int userBits(long word) {
        int bits = 0;
        for (int group = 0; group < 8; group++) {
            bits |= (int) ((word >>> (8 * group + 4)) & 0xF) << (4 * group);
        }
        return bits;
    }

    /** A bit of the whole frame, 0…79. */
    public static boolean bit(long word, int at) {
        return at < 64 ? ((word >>> at) & 1) == 1 : ((SYNC >>> (at - 64)) & 1) == 1;
    }

    private static int digit(long word, int at, int mask) {
        return (int) (word >>> at) & mask;
    }
}
