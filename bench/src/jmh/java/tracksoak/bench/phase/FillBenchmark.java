package tracksoak.bench.phase;

import java.io.IOException;
import java.util.Objects;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import org.openjdk.jmh.annotations.AuxCounters;
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
import tracksoak.bench.phase.run.Budget;
import tracksoak.bench.phase.run.FillPhase;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanName;

/**
 * The fill beside a plain loop with the same chunk, files, I/O mode and file system: seconds for the same bytes, and CPU.
 * The two are measured in turn, because a shared machine's disk changes from minute to minute: compare medians of
 * {@code pair} only.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 4)
@Measurement(iterations = 10)
public class FillBenchmark {

    private static final int CHUNK = 1 << 16;

    /** Tracks, and so files. */
    @Param({"32"})
    int tracks;

    private RealFolder folder = new RealFolder();

    @Nullable
    private Session session;

    /** Time and CPU of both, in one round. */
    @AuxCounters(AuxCounters.Type.EVENTS)
    @State(Scope.Thread)
    public static class Pair {
        /** The fill's rate ÷ the plain loop's. */
        public double rateRatio;

        /** The fill's CPU per byte ÷ the plain loop's. */
        public double cpuRatio;

        /** The plain loop's rate in MB/s. */
        public double plainMegabytesPerSecond;
    }

    /** Once: else what reading sessions costs, and compiling that, would be in what the fill costs. */
    @Setup(Level.Trial)
    public void choose() {
        session = RealFolder.session(tracks);
    }

    @Setup(Level.Iteration)
    public void begin() throws IOException {
        folder.clear();
    }

    @TearDown(Level.Trial)
    public void end() {
        folder.close();
    }

    /** Plain, fill, fill, plain: so that a drift of the disk hits both alike. */
    @Benchmark
    public PhaseFacts pair(Pair pair) throws IOException {
        long bytes = RealFolder.SMOKE ? 4L << 20 : 512L << 20;
        Measured plain = plain(bytes);
        folder.clear();
        Measured fill = fill(bytes);
        folder.clear();
        fill = fill.plus(fill(bytes));
        folder.clear();
        plain = plain.plus(plain(bytes));
        pair.rateRatio = (fill.bytes / (double) fill.ns) / (plain.bytes / (double) plain.ns);
        pair.cpuRatio = (fill.cpuNs / (double) fill.bytes) / (plain.cpuNs / (double) plain.bytes);
        pair.plainMegabytesPerSecond = plain.bytes * 1e3 / plain.ns;
        return fill.facts;
    }

    private record Measured(long bytes, long ns, long cpuNs, PhaseFacts facts) {
        Measured plus(Measured other) {
            return new Measured(bytes + other.bytes, ns + other.ns, cpuNs + other.cpuNs, facts);
        }
    }

    private Measured fill(long bytes) {
        Session chosen = Objects.requireNonNull(session);
        Plan plan = Plan.named(PlanName.SOUND_CHECK)
                .fillCap(600)
                .takeAfter(1)
                .shortened()
                .plan();
        Budget budget = Budget.of(chosen, plan, folder.drive.alignmentBytes(), bytes, 0);
        FillPhase fill = new FillPhase(folder.bench(chosen, plan), "fill", 1, budget);
        long cpu = RealFolder.cpuNs();
        PhaseFacts facts = fill.write(bytes);
        if (facts.fault() != null) {
            throw new IllegalStateException("the fill did not end by itself: " + facts.fault());
        }
        return new Measured(facts.bytes(), Math.round(facts.seconds() * 1e9), RealFolder.cpuNs() - cpu, facts);
    }

    private Measured plain(long bytes) throws IOException {
        PhaseFacts none = PhaseFacts.builder(tracksoak.report.record.facts.PhaseKind.FILL, "")
                .build();
        try (PlainFiles files = new PlainFiles(folder.drive, tracks, CHUNK)) {
            long cpu = RealFolder.cpuNs();
            long start = tracksoak.profiles.base.SystemClocks.NANO.nanoTime();
            long chunks = bytes / CHUNK;
            for (long chunk = 0; chunk < chunks; chunk++) {
                files.writeOne();
            }
            long ns = tracksoak.profiles.base.SystemClocks.NANO.nanoTime() - start;
            return new Measured(chunks * CHUNK, ns, RealFolder.cpuNs() - cpu, none);
        }
    }
}
