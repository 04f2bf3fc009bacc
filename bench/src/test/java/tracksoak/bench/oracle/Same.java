package tracksoak.bench.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import org.HdrHistogram.Histogram;
import tracksoak.bench.recorder.loop.Histograms;
import tracksoak.bench.recorder.loop.PlayerFigures;
import tracksoak.bench.recorder.loop.TakeFigures;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.Stall;

/** Holds the bench's books against brute force: everything must be the same, to the ns and the byte. */
final class Same {

    private Same() {}

    /** A recorder's books. */
    static void books(String seed, BruteQueue queue, TakeFigures figures) {
        int streams = queue.done.length;
        assertThat(figures.doneBytes())
                .as(seed + "bytes done per stream")
                .containsExactlyElementsOf(
                        IntStream.range(0, streams).mapToObj(i -> queue.done[i]).toList());
        assertThat(figures.lostMs())
                .as(seed + "ms lost per stream")
                .containsExactlyElementsOf(
                        IntStream.range(0, streams).mapToObj(queue::lostMs).toList());
        assertThat(figures.totals().peakMs()).as(seed + "peak backlog").isEqualTo(queue.peakMs());
        assertThat(figures.totals().operations()).as(seed + "writes").isEqualTo(queue.writes);
        assertThat(figures.totals().writtenBytes()).as(seed + "bytes").isEqualTo(queue.writtenBytes);
        assertThat(figures.totals().busyNs()).as(seed + "busy").isEqualTo(queue.busyNs);
        assertThat(figures.stallCount()).as(seed + "stalls").isEqualTo(queue.stalls.size());
        histogram(seed + "services", queue.services, figures.histograms().service());
        histogram(seed + "responses", queue.responses, figures.histograms().response());
        histogram(seed + "flushes", queue.flushes, figures.histograms().flush());
        if (queue.stalls.size() <= PhaseFacts.MOST_LISTED) {
            assertThat(figures.stalls())
                    .as(seed + "stalls")
                    .containsExactlyElementsOf(queue.stalls.stream()
                            .map(wait -> new Stall(wait.fromNs() / 1e9, (wait.toNs() - wait.fromNs()) / 1e6, 0))
                            .toList());
        }
        if (queue.losses.size() <= PhaseFacts.MOST_LISTED) {
            assertThat(figures.overruns())
                    .as(seed + "overruns")
                    .containsExactlyElementsOf(queue.losses.stream()
                            .map(loss -> new Overrun(
                                    loss.atNs() / 1e9,
                                    queue.worstMs(loss),
                                    loss.bytes().size(),
                                    0))
                            .toList());
        }
    }

    /** A player's books. */
    static void books(String seed, Session session, BrutePlayer brute, PlayerFigures figures) {
        int streams = session.streams().size();
        assertThat(figures.books().doneBytes())
                .as(seed + "bytes read per stream")
                .containsExactlyElementsOf(
                        IntStream.range(0, streams).mapToObj(i -> brute.read[i]).toList());
        assertThat(figures.books().lostMs())
                .as(seed + "ms of silence per stream")
                .containsExactlyElementsOf(IntStream.range(0, streams)
                        .mapToObj(i -> brute.silentBytes(i)
                                * 1e3
                                / session.streams().get(i).bytesPerSecond())
                        .toList());
        assertThat(figures.underruns()).as(seed + "underruns").isEqualTo(brute.underruns());
        assertThat(figures.books().totals().operations()).as(seed + "reads").isEqualTo(brute.reads);
        assertThat(figures.books().totals().busyNs()).as(seed + "busy").isEqualTo(brute.busyNs);
        assertThat(figures.books().totals().peakMs()).as(seed + "lacking").isEqualTo(brute.peakMs);
        assertThat(figures.leastHeldMs()).as(seed + "least held").isEqualTo(brute.leastHeldMs);
        assertThat(figures.books().stallCount()).as(seed + "stalls").isEqualTo(brute.stalls.size());
        histogram(
                seed + "services", brute.services, figures.books().histograms().service());
        histogram(
                seed + "responses",
                brute.responses,
                figures.books().histograms().response());
        if (brute.stalls.size() <= PhaseFacts.MOST_LISTED) {
            assertThat(figures.books().stalls())
                    .as(seed + "stalls")
                    .containsExactlyElementsOf(brute.stalls.stream()
                            .map(wait -> new Stall(wait.fromNs() / 1e9, (wait.toNs() - wait.fromNs()) / 1e6, 0))
                            .toList());
        }
    }

    private static void histogram(String what, List<Long> exact, Histogram booked) {
        Histogram expected = Histograms.nanoseconds();
        exact.forEach(expected::recordValue);
        // a copy, as the books' is: where all values are 0 a copied histogram has another bound and equals only a copy
        assertThat(booked).as(what).isEqualTo(expected.copy());
    }
}
