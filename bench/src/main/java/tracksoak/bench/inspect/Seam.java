package tracksoak.bench.inspect;

import java.io.IOException;
import tracksoak.bench.recording.RecordedFile;
import tracksoak.bench.recording.SampleFile;

/**
 * Whether audio goes on smoothly from one split to the next. A sample mostly follows from the two before it; where files stand in the wrong
 * order, or something is missing between them, it does not.
 */
final class Seam {

    private static final int AROUND = 256;
    private static final double ROUGHER = 16;

    private static final double SMOOTH = 4;
    private static final double LOUD = 64;

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

    /**
     * Whether the audio itself shows that one file follows the other: it goes on smoothly where it is so loud, and so slow, that it hardly
     * would by chance. Tracks that hold the same tone go on in each other as well, but also in themselves.
     */
    static boolean shows(RecordedFile before, RecordedFile after) {
        if (!before.header().format().equals(after.header().format())) {
            return false;
        }
        try (SampleFile first = SampleFile.open(before);
                SampleFile second = SampleFile.open(after)) {
            return goesOn(first, second) && !goesOn(second, second);
        } catch (IOException refused) {
            // nothing is shown
            return false;
        }
    }

    private static boolean goesOn(SampleFile before, SampleFile after) throws IOException {
        boolean shown = false;
        for (int channel = 0; channel < before.format().channels(); channel++) {
            float[] end = before.values(channel, before.samples() - AROUND, AROUND);
            float[] begin = after.values(channel, 0, AROUND);
            if (end.length < AROUND || begin.length < AROUND || jumps(before, after, channel)) {
                return false;
            }
            double usual = Math.max(
                    (bends(end) + bends(begin)) / 2, 2 * before.format().step());
            double last = end[AROUND - 1];
            double bend =
                    Math.max(Math.abs(begin[0] - 2 * last + end[AROUND - 2]), Math.abs(begin[1] - 2 * begin[0] + last));
            shown |= bend <= SMOOTH * usual && Math.min(Math.abs(last), Math.abs(begin[0])) > LOUD * usual;
        }
        return shown;
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
