package tracksoak.bench.timecode;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/** Following the test signal on 32 tracks, 4 s of it an operation: at least 5 operations a second are 20 times real time. */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class TimecodeBenchmark {

    private static final int RATE = 48_000;
    private static final int TRACKS = 32;

    /** Whether the track holds the very samples, or came through something analogue. */
    @Param({"exact", "analogue"})
    private String path = "exact";

    private final float[] samples = new float[4 * RATE];

    /** Four seconds of the signal. */
    @Setup
    public void play() {
        new TestSignal(RATE).fill(0, samples, samples.length);
        if (path.equals("analogue")) {
            float smooth = 0;
            for (int i = 0; i < samples.length; i++) {
                smooth += (samples[i] - smooth) * 0.6f;
                samples[i] = smooth;
            }
        }
    }

    /** Four seconds of 32 tracks. */
    @Benchmark
    public long follow() {
        long frames = 0;
        for (int track = 0; track < TRACKS; track++) {
            SignalTracker tracker = new SignalTracker(RATE, 1.0 / (1 << 23));
            tracker.feed(samples, samples.length);
            SignalTrace trace = tracker.end();
            if (!trace.found() || !trace.breaks().isEmpty() || trace.exact() != path.equals("exact")) {
                throw new IllegalStateException("a sound track was called broken");
            }
            frames += trace.frames();
        }
        return frames;
    }
}
