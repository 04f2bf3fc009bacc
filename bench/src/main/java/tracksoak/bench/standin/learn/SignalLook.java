package tracksoak.bench.standin.learn;

import java.io.IOException;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.recording.SampleFile;
import tracksoak.bench.recording.UnreadableWave;
import tracksoak.bench.recording.VolumeBytes;
import tracksoak.bench.recording.WaveHeader;
import tracksoak.bench.recording.WaveHeaderReader;
import tracksoak.bench.timecode.SignalBreak;
import tracksoak.bench.timecode.SignalProbe;
import tracksoak.bench.timecode.SignalProbe.Carries;
import tracksoak.bench.timecode.SignalTrace;
import tracksoak.bench.timecode.SignalTracker;
import tracksoak.bench.volume.ByteSource;
import tracksoak.bench.volume.VolumeFile;

/** What the test signal in a recorded file shows: where in it audio is missing. Immutable. */
final class SignalLook {

    private static final int SAMPLES_AT_ONCE = 1 << 14;

    /** What is not exact to the sample is told to the millisecond. */
    private static final double NEAR_S = 1.5e-3;

    private final WaveHeader header;
    private final SignalTrace trace;

    private SignalLook(WaveHeader header, SignalTrace trace) {
        this.header = header;
        this.trace = trace;
    }

    /** Reads a file; empty where it carries no test signal, or no header tells how its samples are stored. */
    static Optional<SignalLook> of(ByteSource image, VolumeFile file) throws IOException {
        try (VolumeBytes bytes = new VolumeBytes(image, file)) {
            WaveHeader header = WaveHeaderReader.read(bytes);
            SampleFile samples = new SampleFile(bytes, header.dataAt(), header.samples(), header.format());
            for (int channel = 0; channel < header.format().channels(); channel++) {
                SignalTrace trace = trace(samples, channel);
                if (trace != null && trace.found()) {
                    return Optional.of(new SignalLook(header, trace));
                }
            }
        } catch (UnreadableWave none) {
            // its chunks in the trace are all there is
        }
        return Optional.empty();
    }

    private static @Nullable SignalTrace trace(SampleFile file, int channel) throws IOException {
        int rate = file.format().sampleRateHz();
        Carries carries = SignalProbe.of(rate, file.samples(), (from, count) -> file.values(channel, from, count));
        if (carries != Carries.TEST_SIGNAL) {
            return null;
        }
        SignalTracker tracker = new SignalTracker(rate, file.format().step());
        for (long at = 0; at < file.samples(); at += SAMPLES_AT_ONCE) {
            float[] values = file.values(channel, at, SAMPLES_AT_ONCE);
            if (values.length == 0) {
                break;
            }
            tracker.feed(values, values.length);
        }
        return tracker.end();
    }

    /** Whether the signal goes on over all of a part of the file. */
    boolean covers(long fromByte, long untilByte) {
        return trace.from() <= sample(fromByte) && trace.until() >= sample(untilByte) && trace.moreBreaks() == 0;
    }

    /** Audio that is missing behind one place of the file, up to another, in s; 0 where it is whole. */
    double missingS(long afterByte, long untilByte) {
        double near = trace.exact() ? 0.5 : NEAR_S * header.format().sampleRateHz();
        return trace.breaks().stream()
                        .filter(one -> one.at() > sample(afterByte) && one.at() <= sample(untilByte))
                        .mapToDouble(SignalBreak::missing)
                        .filter(missing -> missing > near)
                        .sum()
                / header.format().sampleRateHz();
    }

    private long sample(long atByte) {
        return Math.max(0, atByte - header.dataAt()) / header.format().frameBytes();
    }
}
