package tracksoak.bench.simulated;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
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
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.base.VirtualClock;

/** Chunks of 64 KiB per second of wall time that a simulated drive takes by itself, 64 files in turn. */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class SimulatedDriveBenchmark {

    private static final int CHUNK = 64 << 10;
    private static final int FILES = 64;
    private static final int CHUNKS_PER_FILE = 4096;

    @Param({"steady-stick", "hiccup-card", "crowded-card", "fake-wrap"})
    public String name = "steady-stick";

    private final ByteBuffer chunk = Stamp.ordered(ByteBuffer.allocateDirect(CHUNK));
    private final DriveFile[] files = new DriveFile[FILES];
    private @Nullable SimulatedDrive drive;
    private long writes;

    @Setup
    public void plugIn() throws IOException {
        SimulatedDrive plugged = SimulatedDrives.named(name).orElseThrow().plug(new VirtualClock(0), Long.MAX_VALUE);
        for (int i = 0; i < FILES; i++) {
            files[i] = plugged.create("track-" + i);
        }
        drive = plugged;
        for (int at = 0; at < CHUNK; at += Stamp.BLOCK) {
            Stamp.header(chunk, at, 1, 1, 1, at / Stamp.BLOCK);
        }
    }

    @TearDown
    public void unplug() {
        Objects.requireNonNull(drive).close();
    }

    @Benchmark
    public long write() throws IOException {
        long number = writes / FILES % CHUNKS_PER_FILE;
        chunk.putLong(16, number * CHUNK / Stamp.BLOCK);
        files[(int) (writes % FILES)].write(chunk.position(0), number * CHUNK);
        return writes++;
    }
}
