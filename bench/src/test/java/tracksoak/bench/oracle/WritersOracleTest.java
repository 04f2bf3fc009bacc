package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.recorder.loop.RecorderLedger;
import tracksoak.bench.recorder.loop.StreamTable;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.StreamSpec;

/**
 * Several writers at once: how busy the drive was is the length of the union of all calls, worked out here by sorting
 * them (Klee's measure problem on a line), in all and in every second.
 */
class WritersOracleTest {

    private static final long S = 1_000_000_000L;

    private record Interval(long from, long to) {}

    private record Writer(int stream, long called, long done, boolean flushes) {}

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 16, 64})
    void theBusyTimeIsTheUnionOfAllCalls(int writers) {
        for (long seed = 11281900; seed < 11281950; seed++) {
            check(writers, seed);
        }
    }

    private static void check(int writers, long seed) {
        SplittableRandom random = new SplittableRandom(seed * 100 + writers);
        int streams = writers + random.nextInt(1, 9);
        StreamTable table = new StreamTable(
                IntStream.range(0, streams)
                        .mapToObj(i -> new StreamSpec(i, 1, random.nextInt(4096, 400_000), 65_536))
                        .toList(),
                4096,
                random.nextBoolean() ? Arrival.BURST : Arrival.STAGGERED,
                30,
                random.nextInt(5, 40) * S);
        long slowest = S / random.nextInt(1, 40);
        RecorderLedger ledger = new RecorderLedger(table, S / 4, HostWatch.NONE);
        List<Interval> calls = new ArrayList<>();
        PriorityQueue<Writer> busy = new PriorityQueue<>(Comparator.comparingLong(Writer::done));
        long now = 0;
        while (true) {
            while (busy.size() < writers && now < table.lengthNs()) {
                int stream = ledger.claim(now);
                if (stream == RecorderLedger.NOTHING) {
                    break;
                }
                ledger.calls(now);
                busy.add(new Writer(stream, now, now + random.nextLong(1, slowest), false));
            }
            long ready = now >= table.lengthNs() || busy.size() == writers ? Long.MAX_VALUE : ledger.nextReadyNs();
            long next = Math.min(
                    ready, busy.isEmpty() ? Long.MAX_VALUE : busy.peek().done());
            if (next == Long.MAX_VALUE) {
                break;
            }
            now = Math.max(now, next);
            while (!busy.isEmpty() && busy.peek().done() <= now) {
                Writer done = busy.remove();
                calls.add(new Interval(done.called(), done.done()));
                if (done.flushes()) {
                    ledger.upkeep(done.called(), done.done());
                } else {
                    ledger.done(done.stream(), done.called(), done.done(), 65_536);
                    if (random.nextInt(5) == 0) {
                        ledger.calls(done.done());
                        busy.add(new Writer(
                                done.stream(), done.done(), done.done() + random.nextLong(1, slowest), true));
                    }
                }
            }
        }
        ledger.settle(now);
        TakeFigures figures = ledger.figures(now);
        String which = "seed " + seed + ", " + writers + " writers";
        assertThat(figures.totals().busyNs())
                .as(which)
                .isEqualTo(union(calls, 0, table.lengthNs()))
                .isLessThanOrEqualTo(table.lengthNs());
        int[] busyMs = figures.series().busyMs().toArray();
        assertThat(IntStream.of(busyMs).asLongStream().toArray())
                .as(which)
                .containsExactly(LongStream.range(0, busyMs.length)
                        .map(second -> (union(calls, second * S, (second + 1) * S) + 500_000) / 1_000_000)
                        .toArray());
    }

    /** How much of {@code from} to {@code to} is covered. */
    private static long union(List<Interval> calls, long from, long to) {
        List<Interval> sorted = new ArrayList<>(calls);
        sorted.sort(Comparator.comparingLong(Interval::from));
        long covered = 0;
        long end = from;
        for (Interval call : sorted) {
            long begin = Math.max(end, call.from());
            long stop = Math.min(to, call.to());
            covered += Math.max(0, stop - begin);
            end = Math.max(end, Math.min(to, call.to()));
        }
        return covered;
    }
}
