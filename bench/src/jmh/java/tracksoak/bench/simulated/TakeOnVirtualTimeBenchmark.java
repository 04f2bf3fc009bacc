package tracksoak.bench.simulated;

import java.io.IOException;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import tracksoak.bench.oracle.LoopRun;
import tracksoak.bench.oracle.Sessions;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.simulated.catalog.SimulatedDrives;

/** A take of 3 h with 64 tracks at 48 kHz, 24-bit through the recorder loop: at most 2 s of wall time, per chunk here. */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 5, time = 2)
public class TakeOnVirtualTimeBenchmark {

    private static final int SECONDS = 3 * 3600;
    private static final int TRACKS = 64;
    private static final int CHUNKS = 1_518_750;

    @Param({"steady-ssd", "collecting-ssd"})
    public String name = "steady-ssd";

    @Benchmark
    @OperationsPerInvocation(CHUNKS)
    public TakeFigures chunks() throws IOException {
        return new LoopRun(Sessions.tracks(TRACKS), SimulatedDrives.named(name).orElseThrow(), SECONDS).play();
    }
}
