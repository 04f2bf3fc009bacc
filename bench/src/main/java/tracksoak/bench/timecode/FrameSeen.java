package tracksoak.bench.timecode;

import java.util.Arrays;

/**
 * A frame of the test signal as it lies in a track, in samples of the track.
 *
 * @param number of the frame
 * @param begin where it begins
 * @param end where it ends
 * @param headLate how much later than in the signal its first bits begin: track minus signal
 * @param tailLate the same of its last bits
 * @param bitLength how long most of its bits are: noise right before it, or a bit that is hurt, does not matter
 */
record FrameSeen(long number, double begin, double end, double headLate, double tailLate, double bitLength) {

    private static final int MEAN_OF = 16;

    static FrameSeen of(long word, LtcDecoder decoder, int sampleRateHz) {
        long number = LtcWord.frameNumber(word, TestSignal.FRAMES_PER_SECOND);
        double bit = 2.0 * sampleRateHz / TestSignal.HALVES_PER_SECOND;
        return new FrameSeen(
                number,
                decoder.boundary(0),
                decoder.boundary(LtcWord.BITS),
                late(decoder, number, 0, bit),
                late(decoder, number, LtcWord.BITS - MEAN_OF + 1, bit),
                bitLength(decoder));
    }

    /** The middle of all, over as many bits as {@code late} is the mean of. */
    private static double bitLength(LtcDecoder decoder) {
        double[] lengths = new double[LtcWord.BITS - MEAN_OF + 1];
        for (int i = 0; i < lengths.length; i++) {
            lengths[i] = (decoder.boundary(i + MEAN_OF) - decoder.boundary(i)) / MEAN_OF;
        }
        Arrays.sort(lengths);
        return lengths[lengths.length / 2];
    }

    private static double late(LtcDecoder decoder, long number, int from, double bit) {
        double sum = 0;
        for (int i = from; i < from + MEAN_OF; i++) {
            sum += decoder.boundary(i) - (number * LtcWord.BITS + i) * bit;
        }
        return sum / MEAN_OF;
    }
}
