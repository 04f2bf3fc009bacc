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
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.TakePhase;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PlanName;

/**
 * A take of very many streams in real time beside a plain loop that writes the same bytes per second in the same bursts:
 * CPU of both, audio lost, and how late the recorder itself came.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(
        value = 1,
        jvmArgsAppend = {"-Xms128m", "-Xmx128m", "-XX:+UseSerialGC", "-XX:+AlwaysPreTouch"})
@Warmup(iterations = 2)
@Measurement(iterations = 3)
public class ManyStreamsBenchmark {

    private static final int CHUNK = 1 << 16;

    /** Streams of 48 kHz/24-bit. */
    @Param({"1024"})
    int streams;

    /** Length of the take in s. */
    @Param({"20"})
    int seconds;

    private RealFolder folder = new RealFolder();

    @Nullable
    private Session session;

    /** What both cost. */
    @AuxCounters(AuxCounters.Type.EVENTS)
    @State(Scope.Thread)
    public static class Cost {
        /** The take's CPU ÷ the plain loop's. */
        public double cpuRatio;

        /** Part of one core the take used. */
        public double takeCores;

        /** Audio lost on the worst track in ms. */
        public double lostMs;

        /** Largest backlog in ms of audio. */
        public double peakBacklogMs;

        /** Longest the recorder came late itself in ms. */
        public double ownDelayMs;

        /** Resident memory of the process in MB after the take, 0 where the system does not say. */
        public double residentMegabytes;
    }

    /** Once: else what reading sessions costs, and compiling that, would be in what the take costs. */
    @Setup(Level.Trial)
    public void choose() {
        session = RealFolder.session(RealFolder.SMOKE ? 8 : streams);
    }

    @Setup(Level.Iteration)
    public void begin() throws IOException {
        folder.clear();
    }

    @TearDown(Level.Trial)
    public void end() {
        folder.close();
    }

    @Benchmark
    public PhaseFacts take(Cost cost) throws IOException {
        Session chosen = Objects.requireNonNull(session);
        int tracks = chosen.streams().size();
        double length = RealFolder.SMOKE ? 0.5 : seconds;
        TakePhase take = new TakePhase(
                folder.bench(
                        chosen,
                        Plan.named(PlanName.LINE_CHECK)
                                .takeAfter(length)
                                .shortened()
                                .plan()),
                "take-1",
                1,
                length);
        long cpu = RealFolder.cpuNs();
        PhaseFacts facts = take.take();
        long takeCpu = RealFolder.cpuNs() - cpu;
        take.close();
        folder.clear();
        double plainCpuPerByte = plain(tracks, length) / (chosen.bytesPerSecond() * length);
        HostDelays host = Objects.requireNonNull(facts.hostDelays());
        cost.cpuRatio = takeCpu / (double) facts.bytes() / plainCpuPerByte;
        cost.takeCores = takeCpu / 1e9 / facts.seconds();
        cost.lostMs = facts.lostMs();
        cost.peakBacklogMs = facts.peakBacklogMs();
        cost.ownDelayMs = host.ownMaxMs();
        cost.residentMegabytes = Resident.megabytes();
        return facts;
    }

    /** CPU in ns of a loop that writes the same bytes in the same bursts. */
    private long plain(int tracks, double length) throws IOException {
        try (PlainFiles files = new PlainFiles(folder.drive, tracks, CHUNK)) {
            long cpu = RealFolder.cpuNs();
            long start = SystemClocks.NANO.nanoTime();
            double periodNs = CHUNK * 1e9 / 144_000;
            for (int burst = 1; burst * periodNs < length * 1e9; burst++) {
                SystemClocks.PARK.waitUntil(start + Math.round(burst * periodNs));
                for (int track = 0; track < tracks; track++) {
                    files.writeOne();
                }
            }
            long bursts = (long) (length * 1e9 / periodNs);
            double wanted = 144_000.0 * tracks * length;
            double written = Math.max(1, bursts) * (double) tracks * CHUNK;
            return Math.round((RealFolder.cpuNs() - cpu) * (wanted / written));
        }
    }
}
