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

    /** Timecode goes to and fro between two levels; music hardly ever does. */
    private static boolean flat(float[] glance) {
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
