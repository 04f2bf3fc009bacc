package tracksoak.bench.recorder.loop;

import java.io.IOException;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import tracksoak.bench.recorder.NullDrive;
import tracksoak.bench.recorder.watch.CallWatch;
import tracksoak.bench.recorder.watch.DelayLog;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.recorder.watch.WatchedDrive;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.StreamSpec;
import tracksoak.profiles.base.VirtualClock;

/** One chunk through the recorder's books, stamps, files and call watch on virtual time; with {@code -prof gc} 0 B per chunk. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class RecorderLoopBenchmark {

    /** Streams of 48 kHz/24-bit. */
    @Param({"64", "1024"})
    int streams;

    private VirtualClock clock = new VirtualClock(0);
    private RecorderLoop loop = begun();

    /** A take that does not end within a trial: everything is allocated before it. */
    @Setup(Level.Trial)
    public void begin() {
        loop = begun();
    }

    private RecorderLoop begun() {
        clock = new VirtualClock(0);
        int howMany = Math.max(1, streams);
        StreamTable table = new StreamTable(
                IntStream.range(0, howMany)
                        .mapToObj(i -> new StreamSpec(i, 1, 144_000, 1 << 16))
                        .toList(),
                4096,
                Arrival.BURST,
                2,
                TimeUnit.HOURS.toNanos(60));
        WatchedDrive drive = new WatchedDrive(new NullDrive(clock), new CallWatch(clock));
        StreamFiles files = new StreamFiles(drive, "take-1", 1, 7, howMany, 1L << 40);
        try {
            for (int stream = 0; stream < howMany; stream++) {
                files.begin(stream);
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        long start = clock.nanoTime();
        RecorderLedger ledger = new RecorderLedger(table, 250_000_000, HostWatch.NONE);
        return new RecorderLoop(
                ledger,
                table,
                files,
                new ChunkStamper(7, 42, true, 1 << 16, 4096),
                new FlushSchedule(0, howMany, start),
                clock,
                new DelayLog(),
                4096,
                start);
    }

    /** Waits (on virtual time) until a chunk is ready and writes it. */
    @Benchmark
    public long chunk() throws IOException {
        long due = loop.step();
        while (due > clock.nanoTime()) {
            if (due == RecorderLoop.OVER) {
                loop = begun();
            } else {
                clock.waitUntil(due);
            }
            due = loop.step();
        }
        return due;
    }
}
