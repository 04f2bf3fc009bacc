package tracksoak.report.page;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.HdrHistogram.Histogram;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.DeviceEvidence;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IntColumn;
import tracksoak.report.record.facts.Latency;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.StreamTotals;

/** Makes takes that look like those of a real drive: invented figures from a fixed seed. */
final class TakeMaker {

    private static final int TRACKS = 32;
    private static final double DEMAND = 4_608_000;
    private static final double BUFFER_MS = 2000;

    private final Random random;
    private final String startedAt;
    private final int seconds;
    private final int planned;
    private final double baseMs;
    private final List<Stall> stalls = new ArrayList<>();
    private int hostAt = -1;
    private int hostMs;
    private @Nullable Fault fault;

    TakeMaker(long seed, String startedAt, int seconds, int planned, double baseMs) {
        this.random = new Random(seed);
        this.startedAt = startedAt;
        this.seconds = seconds;
        this.planned = planned;
        this.baseMs = baseMs;
    }

    TakeMaker stall(double atS, double ms) {
        stalls.add(new Stall(atS, ms, 0.4));
        return this;
    }

    TakeMaker hostDelay(int atS, int ms) {
        hostAt = atS;
        hostMs = ms;
        return this;
    }

    TakeMaker fault(Fault ended) {
        fault = ended;
        return this;
    }

    PhaseFacts make() {
        int[] kib = new int[seconds];
        int[] service = new int[seconds];
        int[] backlog = new int[seconds];
        int[] busy = new int[seconds];
        int[] host = new int[seconds];
        Histogram serviceNs = new Histogram(3_600_000_000_000L, 3);
        Histogram responseNs = new Histogram(3_600_000_000_000L, 3);
        for (int s = 0; s < seconds; s++) {
            kib[s] = 4500 + random.nextInt(129) - 64;
            service[s] = 4 + (int) Math.abs(random.nextGaussian() * 9);
            backlog[s] = (int) (baseMs + Math.abs(random.nextGaussian()) * baseMs * 0.4);
            busy[s] = 380 + random.nextInt(60);
            host[s] = random.nextInt(3);
            for (int chunk = 0; chunk < 70; chunk++) {
                long ns = (long) (4.2e6 * StrictMath.exp(random.nextGaussian() * 0.35));
                serviceNs.recordValue(ns);
                responseNs.recordValue(ns + (1 + random.nextInt(TRACKS - 1)) * 4_200_000L);
            }
        }
        if (hostAt >= 0) {
            host[hostAt] = hostMs;
            backlog[hostAt] += hostMs;
        }
        List<Overrun> overruns = new ArrayList<>();
        for (Stall stall : stalls) {
            place(stall, service, backlog, serviceNs, responseNs, overruns);
        }
        stalls.sort(Comparator.comparingDouble(Stall::atS));
        double lost = overruns.stream().mapToDouble(Overrun::lostMs).sum();
        int peakAt = IntStream.range(0, seconds)
                .boxed()
                .max(Comparator.comparingInt(s -> backlog[s]))
                .orElse(0);
        long bytes = IntStream.of(kib).mapToLong(k -> k * 1024L).sum();
        return PhaseFacts.builder(PhaseKind.TAKE, startedAt)
                .seconds(seconds)
                .plannedSeconds(planned)
                .complete(fault == null)
                .bytes(bytes)
                .operations(bytes / 65536)
                .lostMs(lost)
                .lostTrackMs(lost * TRACKS)
                .tracksHit(lost > 0 ? TRACKS : 0)
                .peakBacklogMs(seconds == 0 ? 0 : backlog[peakAt])
                .peakBacklogAtS(peakAt)
                .peakBacklogHostMs(hostAt == peakAt ? hostMs : 0.4)
                .busyFraction(0.412)
                .stallCount(stalls.size())
                .stallTotalMs(stalls.stream().mapToDouble(Stall::ms).sum())
                .stalls(stalls)
                .overruns(overruns)
                .service(latency(serviceNs))
                .response(latency(responseNs))
                .flush(flushes())
                .series(new Series(
                        IntColumn.of(kib),
                        IntColumn.of(service),
                        IntColumn.of(backlog),
                        IntColumn.of(busy),
                        IntColumn.of(host)))
                .streams(new StreamTotals(
                        Collections.nCopies(TRACKS, bytes / TRACKS),
                        Collections.nCopies(TRACKS, lost),
                        Collections.nCopies(TRACKS, 0.0 + backlogMax(backlog)),
                        Collections.nCopies(TRACKS, 1)))
                .device(new DeviceEvidence((long) (bytes * 1.004), 0, bytes))
                .hostDelays(new HostDelays(Math.max(2.4, hostMs), 11.2, 0.3, 4.1, 0, 0, true))
                .fault(fault)
                .build();
    }

    private @Nullable Latency flushes() {
        Histogram flushNs = new Histogram(3_600_000_000_000L, 3);
        for (int flush = 0; flush < seconds / 10; flush++) {
            flushNs.recordValue((long) (18e6 * StrictMath.exp(random.nextGaussian() * 0.5)));
        }
        return latency(flushNs);
    }

    private static void place(
            Stall stall,
            int[] service,
            int[] backlog,
            Histogram serviceNs,
            Histogram responseNs,
            List<Overrun> overruns) {
        int at = (int) (stall.atS() + stall.ms() / 1000);
        service[at] = (int) stall.ms();
        serviceNs.recordValue((long) (stall.ms() * 1e6));
        int peak = (int) Math.min(BUFFER_MS, stall.ms() + 40);
        double left = peak;
        for (int s = at; s < backlog.length && left > backlog[s]; s++) {
            backlog[s] = (int) left;
            left -= 620;
        }
        for (int waiting = 0; waiting < TRACKS; waiting++) {
            responseNs.recordValue((long) ((stall.ms() - waiting * stall.ms() / TRACKS / 3) * 1e6));
        }
        if (stall.ms() > BUFFER_MS) {
            overruns.add(new Overrun(stall.atS() + BUFFER_MS / 1000, stall.ms() - BUFFER_MS, TRACKS, stall.hostMs()));
        }
    }

    private static int backlogMax(int[] backlog) {
        return IntStream.of(backlog).max().orElse(0);
    }

    static @Nullable Latency latency(Histogram ns) {
        if (ns.getTotalCount() == 0) {
            return null;
        }
        ByteBuffer buffer = ByteBuffer.allocate(ns.getNeededByteBufferCapacity());
        int length = ns.encodeIntoCompressedByteBuffer(buffer);
        byte[] bytes = new byte[length];
        buffer.flip().get(bytes);
        return new Latency(
                ns.getTotalCount(),
                ns.getMean() / 1e3,
                ns.getValueAtPercentile(50) / 1e3,
                ns.getValueAtPercentile(90) / 1e3,
                ns.getValueAtPercentile(99) / 1e3,
                ns.getValueAtPercentile(99.9) / 1e3,
                ns.getMaxValue() / 1e3,
                Base64.getEncoder().encodeToString(bytes));
    }

    static double demand() {
        return DEMAND;
    }
}
