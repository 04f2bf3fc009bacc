package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.chart.PercentileCurve;
import tracksoak.report.page.view.Bars;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Latency;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** How long chunks took, as 1 in so many took longer than, and by percentile; per take. */
final class CurvesPart implements Part {

    private static final double US_PER_MS = 1000;
    private static final List<Long> ONE_IN = List.of(2L, 10L, 100L, 1000L, 10_000L, 100_000L);
    private static final long MOST_PERCENT = 10_000;
    private static final double[] TABLE = {50, 90, 99, 99.9, 99.99, 100};

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(Prose.of(
                record.phasesOf(PhaseKind.TAKE).findAny().isPresent()
                        ? "Counted from the moment a piece of audio was ready until it was on the drive, so"
                                + " waiting behind other tracks counts too: that is what the recorder's buffer"
                                + " feels. From the call alone, a write takes less."
                        : "Counted from the moment a piece of audio could be asked for until it was there, so"
                                + " waiting behind other tracks counts too: that is what the player's buffer"
                                + " feels. From the call alone, a read takes less."));
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            if (phase.kind().paced()) {
                take(record, i, blocks);
                Latency flush = phase.flush();
                if (flush != null && flush.count() > 0) {
                    blocks.add(
                            Prose.of("Flushes are measured separately: " + Count.of(flush.count(), "flush", "flushes")
                                    + ", half of them within " + Units.ms(flush.p50Us() / US_PER_MS) + ", the longest "
                                    + Units.ms(flush.maxUs() / US_PER_MS) + "."));
                }
            }
        }
        if (blocks.size() == 1) {
            return new Section(
                    "times",
                    "How long writes took",
                    "No take was made",
                    "",
                    List.of(Prose.of("No take was made, so no times are known.")));
        }
        return new Section(
                "times",
                "How long writes took",
                "From the call, and from the moment the audio was ready",
                "longest " + Units.ms(longestMs(record)),
                blocks);
    }

    private static double longestMs(RunRecord record) {
        return record.phases().stream()
                .filter(phase -> phase.kind().paced())
                .flatMap(phase -> Stream.ofNullable(phase.response()))
                .mapToDouble(response -> response.maxUs() / US_PER_MS)
                .max()
                .orElse(0);
    }

    private static void take(RunRecord record, int index, List<Block> blocks) {
        PhaseFacts phase = record.phases().get(index);
        String name = PhaseNames.of(record, index);
        PercentileCurve service = PercentileCurve.of(phase.service());
        PercentileCurve response = PercentileCurve.of(phase.response());
        if (service == null || response == null) {
            blocks.add(Prose.of(name + ": the record holds no readable distribution of times."));
            return;
        }
        boolean played = phase.kind() == PhaseKind.PLAYBACK;
        double bufferMs = record.session().bufferS() * US_PER_MS;
        List<Bars.Bar> bars = new ArrayList<>();
        for (long in : ONE_IN) {
            if (in <= response.count()) {
                double ms = response.ms(100.0 - 100.0 / in);
                bars.add(new Bars.Bar(
                        (played ? "1 read in " : "1 write in ") + Count.number(in), Units.ms(ms), part(ms, bufferMs)));
            }
        }
        bars.add(new Bars.Bar("the slowest", Units.ms(response.ms(100)), part(response.ms(100), bufferMs)));
        blocks.add(new Bars(
                name + ": " + Count.of(response.count(), played ? "read" : "write")
                        + ", counted from the moment the audio " + (played ? "could be asked for" : "was ready")
                        + ", and what that takes of the buffer",
                "How many",
                "took longer than",
                bars,
                played ? "The player's buffer" : "The recorder's buffer",
                Units.seconds(record.session().bufferS())));
        blocks.add(table(name, service, response));
    }

    private static int part(double ms, double bufferMs) {
        return bufferMs <= 0 ? 100 : (int) Math.max(0, Math.min(MOST_PERCENT, Math.round(100 * ms / bufferMs)));
    }

    private static Grid table(String name, PercentileCurve service, PercentileCurve response) {
        List<List<Shown>> rows = new ArrayList<>();
        for (double percentile : TABLE) {
            rows.add(Grid.row(
                    percentile == 100 ? "all" : Quantity.plain(percentile) + " %",
                    Units.ms(service.ms(percentile)),
                    Units.ms(response.ms(percentile))));
        }
        return new Grid(
                name + ": " + Count.of(service.count(), "chunk") + ", the share that took no longer than",
                List.of("Share of chunks", "From the call", "From being ready"),
                rows);
    }
}
