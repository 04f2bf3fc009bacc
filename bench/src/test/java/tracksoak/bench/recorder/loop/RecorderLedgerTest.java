package tracksoak.bench.recorder.loop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import tracksoak.bench.recorder.watch.AbandonedException;
import tracksoak.bench.recorder.watch.HostWatch;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.StreamSpec;

/** Exact books by hand: 1 chunk = 4096 B = 1 s of a stream of 4096 B/s. */
class RecorderLedgerTest {

    private static final long S = 1_000_000_000L;

    @Test
    void aPromptDriveHasABacklogOfOneChunkAndNoStall() {
        RecorderLedger ledger = ledger(1, 4, 10);
        for (long second = 1; second <= 9; second++) {
            assertThat(ledger.claim(second * S)).isZero();
            ledger.calls(second * S);
            ledger.done(0, second * S, second * S + S / 10, 4096);
            assertThat(ledger.claim(second * S + S / 10)).isEqualTo(RecorderLedger.NOTHING);
        }
        ledger.settle(10 * S);
        TakeFigures figures = ledger.figures(10 * S);
        assertThat(figures.totals().peakMs()).isEqualTo(1099.853515625, within(1e-9));
        assertThat(figures.totals().busyNs()).isEqualTo(9 * S / 10);
        assertThat(figures.stallCount()).isZero();
        assertThat(figures.worstLostMs()).isZero();
        assertThat(figures.totals().writtenBytes()).isEqualTo(9 * 4096);
    }

    @Test
    void aLongWriteLosesExactlyTheChunksThatDidNotFit() {
        // buffer 4 s; the chunk ready at 1 s comes back at 7.5 s: by then 7.5 s are made, 4 s fit,
        // the 5th chunk overflows at 4 s, so the chunks 4, 5, 6 and 7 are dropped whole
        RecorderLedger ledger = ledger(1, 4, 20);
        assertThat(ledger.claim(S)).isZero();
        ledger.calls(S);
        ledger.done(0, S, 15 * S / 2, 4096);
        TakeFigures figures = ledger.figures(15 * S / 2);
        assertThat(figures.worstLostMs()).isEqualTo(4000);
        assertThat(figures.totals().peakMs()).as("the buffer is full").isEqualTo(4000);
        assertThat(figures.overruns()).singleElement().satisfies(overrun -> {
            assertThat(overrun.atS()).isEqualTo(4);
            assertThat(overrun.lostMs()).isEqualTo(4000);
            assertThat(overrun.tracks()).isEqualTo(1);
        });
        assertThat(figures.stalls()).singleElement().satisfies(stall -> {
            assertThat(stall.atS()).isEqualTo(1);
            assertThat(stall.ms()).isEqualTo(6500);
        });
        // chunks 1, 2 and 3 are still there, then the take goes on with chunk 8, ready at 9 s
        for (int kept = 0; kept < 3; kept++) {
            assertThat(ledger.claim(15 * S / 2)).isZero();
            ledger.calls(15 * S / 2);
            ledger.done(0, 15 * S / 2, 15 * S / 2, 4096);
        }
        assertThat(ledger.claim(15 * S / 2)).isEqualTo(RecorderLedger.NOTHING);
        assertThat(ledger.nextReadyNs()).isEqualTo(9 * S);
    }

    @Test
    void chunksAreTakenInTurnAfterTheStreamWrittenLast() {
        RecorderLedger ledger = ledger(3, 4, 10);
        int[] order = IntStream.range(0, 6)
                .map(i -> {
                    int stream = ledger.claim(2 * S);
                    ledger.calls(2 * S);
                    ledger.done(stream, 2 * S, 2 * S, 4096);
                    return stream;
                })
                .toArray();
        assertThat(order).containsExactly(0, 1, 2, 0, 1, 2);
    }

    @Test
    void aStreamInFlightIsNotClaimedTwice() {
        RecorderLedger ledger = ledger(2, 4, 10);
        assertThat(ledger.claim(3 * S)).isZero();
        assertThat(ledger.claim(3 * S)).isEqualTo(1);
        assertThat(ledger.claim(3 * S)).isEqualTo(RecorderLedger.NOTHING);
    }

    @Test
    void aWriteThatNeverReturnsIsBookedAndLateWritersAreSentAway() {
        RecorderLedger ledger = ledger(2, 4, 60);
        assertThat(ledger.claim(S)).isZero();
        ledger.abandon(S, 31 * S);
        TakeFigures figures = ledger.figures(31 * S);
        assertThat(figures.lostMs()).containsExactly(27_000.0, 27_000.0);
        assertThat(figures.stalls())
                .singleElement()
                .satisfies(stall -> assertThat(stall.ms()).isEqualTo(30_000));
        assertThat(figures.totals().busyNs()).isEqualTo(30 * S);
        assertThatThrownBy(() -> ledger.done(0, S, 40 * S, 4096)).isInstanceOf(AbandonedException.class);
        assertThat(ledger.figures(40 * S).lostMs()).containsExactly(27_000.0, 27_000.0);
    }

    @Test
    void theSeriesShowsTheBacklogOfEverySecondOfAStall() {
        RecorderLedger ledger = ledger(1, 8, 20);
        ledger.claim(S);
        ledger.calls(S);
        ledger.done(0, S, 5 * S, 4096);
        ledger.settle(6 * S);
        int[] backlog = ledger.figures(6 * S).series().maxBacklogMs().toArray();
        assertThat(backlog).startsWith(1000, 2000, 3000, 4000, 5000);
        assertThat(ledger.figures(6 * S).series().busyMs().toArray()).startsWith(0, 1000, 1000, 1000, 1000);
    }

    @Test
    void theHostsShareOfAStallIsKept() {
        StreamTable table = table(1, 8, 20);
        RecorderLedger ledger = new RecorderLedger(table, S / 4, (from, to) -> (to - from) / 2);
        ledger.claim(S);
        ledger.calls(S);
        ledger.done(0, S, 3 * S, 4096);
        assertThat(ledger.figures(3 * S).stalls())
                .singleElement()
                .satisfies(stall -> assertThat(stall.hostMs()).isEqualTo(1000));
        assertThat(ledger.figures(3 * S).totals().peakHostNs()).isEqualTo(3 * S / 2);
    }

    /** Late once and then slow: the drive never caught up in between, so what was lost in the end may be the host's. */
    @Test
    void theHostsShareOfAnOverrunBeginsWhereTheDriveLastHadNothingToDo() {
        HostWatch host = (from, to) -> Math.max(0, Math.min(to, 3 * S) - Math.max(from, S));
        RecorderLedger ledger = new RecorderLedger(table(1, 4, 20), S / 4, host);
        long[] back = {3 * S, 9 * S / 2, 8 * S, 9 * S, 9 * S, 9 * S, 9 * S};
        long called = S;
        for (long done : back) {
            assertThat(ledger.claim(called)).isZero();
            ledger.calls(called);
            ledger.done(0, called, done, 4096);
            called = done;
        }

        TakeFigures figures = ledger.figures(9 * S);
        assertThat(figures.overruns()).singleElement().satisfies(overrun -> {
            assertThat(overrun.atS()).isEqualTo(6);
            assertThat(overrun.lostMs()).isEqualTo(2_000);
            assertThat(overrun.hostMs()).isEqualTo(2_000);
        });
        assertThat(figures.totals().peakHostNs()).isEqualTo(2 * S);
    }

    private static RecorderLedger ledger(int streams, double bufferS, long seconds) {
        return new RecorderLedger(table(streams, bufferS, seconds), S / 4, HostWatch.NONE);
    }

    private static StreamTable table(int streams, double bufferS, long seconds) {
        List<StreamSpec> specs = IntStream.range(0, streams)
                .mapToObj(i -> new StreamSpec(i, 1, 4096, 4096))
                .toList();
        return new StreamTable(specs, 4096, Arrival.BURST, bufferS, seconds * S);
    }
}
