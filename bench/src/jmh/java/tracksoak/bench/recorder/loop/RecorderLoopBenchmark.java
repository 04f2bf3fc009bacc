package tracksoak.bench.recorder.loop;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
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
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.recorder.NullDrive;
import tracksoak.bench.recorder.watch.CallWatch;
import tracksoak.bench.recorder.watch.DelayLog;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.bench.recorder.watch.WatchedDrive;
import tracksoak.bench.stream.ChunkStamper;
import tracksoak.bench.stream.StreamFiles;
import tracksoak.bench.tray.LiveRun;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.StreamSpec;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.PhaseKind;

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

    /** Whether somebody watches: the books are glanced at and told ten times a second, as in a run that a page shows. */
    @Param({"false", "true"})
    boolean watched;

    private VirtualClock clock = new VirtualClock(0);
    private RecorderLedger ledger = ledger(1);
    private RecorderLoop loop = begun();
    private @Nullable ScheduledExecutorService watchers;
    private Path told = Path.of("nowhere");

    /** A take that does not end within a trial: everything is allocated before it. */
    @Setup(Level.Trial)
    public void begin() throws IOException {
        loop = begun();
        if (watched) {
            told = Files.createTempDirectory("watched");
            LiveRun live = new LiveRun(told, new Nobody(), new OffSwitch(), SystemClocks.EPOCH, SystemClocks.NANO);
            ScheduledExecutorService begun = Executors.newSingleThreadScheduledExecutor();
            var unused = begun.scheduleAtFixedRate(
                    () -> live.progress(progress(ledger.glance(clock.nanoTime()))), 0, 100, TimeUnit.MILLISECONDS);
            watchers = begun;
        }
    }

    @TearDown(Level.Trial)
    public void end() throws IOException, InterruptedException {
        ScheduledExecutorService begun = watchers;
        if (begun != null) {
            begun.shutdownNow();
            begun.awaitTermination(10, TimeUnit.SECONDS);
            for (String name : List.of("state.json", "state.json.half", "")) {
                Files.deleteIfExists(told.resolve(name));
            }
        }
    }

    private static final class Nobody implements JobListener {
        @Override
        public void note(String sentence) {}

        @Override
        public void trouble(Problem problem) {}
    }

    private Progress progress(RecorderLedger.Glance glance) {
        return new Progress(
                PhaseKind.TAKE,
                1,
                3,
                1,
                1,
                1,
                streams,
                streams - glance.streamsHit(),
                glance.backlogMs(),
                glance.peakMs(),
                2000,
                glance.worstServiceMs(),
                glance.worstLostMs(),
                glance.writtenBytes(),
                0,
                0);
    }

    private static StreamTable table(int streams) {
        return new StreamTable(
                IntStream.range(0, streams)
                        .mapToObj(i -> new StreamSpec(i, 1, 144_000, 1 << 16))
                        .toList(),
                4096,
                Arrival.BURST,
                2,
                TimeUnit.HOURS.toNanos(60));
    }

    private static RecorderLedger ledger(int streams) {
        return new RecorderLedger(table(streams), 250_000_000, HostWatch.NONE);
    }

    private RecorderLoop begun() {
        clock = new VirtualClock(0);
        int howMany = Math.max(1, streams);
        StreamTable table = table(howMany);
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
        ledger = new RecorderLedger(table, 250_000_000, HostWatch.NONE);
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
