package tracksoak.bench.inspect;

import java.io.IOException;
import tracksoak.bench.recording.SampleFile;

/**
 * Whether audio goes on smoothly from one split to the next. A sample mostly follows from the two before it; where files stand in the wrong
 * order, or something is missing between them, it does not.
 */
final class Seam {

    private static final int AROUND = 256;
    private static final double ROUGHER = 16;

    private Seam() {}

    /** Whether the first sample of a file is no continuation of the last ones of the file before. */
    static boolean jumps(SampleFile before, SampleFile after, int channel) throws IOException {
        float[] end = before.values(channel, before.samples() - AROUND, AROUND);
        float[] begin = after.values(channel, 0, AROUND);
        if (end.length < AROUND || begin.length < AROUND) {
            return false;
        }
        double usual = (bends(end) + bends(begin)) / 2;
        double here = Math.abs(begin[0] - 2.0 * end[AROUND - 1] + end[AROUND - 2]);
        return here > ROUGHER * Math.max(usual, 2 * before.format().step());
    }

    /** How far samples are from following from the two before, in the mean. */
    private static double bends(float[] values) {
        double sum = 0;
        for (int i = 2; i < values.length; i++) {
            sum += Math.abs(values[i] - 2.0 * values[i - 1] + values[i - 2]);
        }
        return sum / (values.length - 2);
    }
}
