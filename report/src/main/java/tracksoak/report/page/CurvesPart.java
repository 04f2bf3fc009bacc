package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.chart.PercentileCurve;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.ChartView;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Latency;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** How long chunks took: service and response time by percentile, one chart per take. */
final class CurvesPart implements Part {

    private static final double US_PER_MS = 1000;
    private static final int POINTS_PER_DECADE = 24;
    private static final double[] TABLE = {50, 75, 90, 95, 99, 99.5, 99.9, 99.95, 99.99, 99.999, 100};

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(Prose.of(
                record.phases().stream().anyMatch(phase -> phase.kind() == PhaseKind.TAKE)
                        ? "Service time runs from the call of a write to its return. Response time runs from the moment the"
                                + " chunk was ready, so waiting behind others counts too: it is what the recorder's buffer feels."
                        : "Service time runs from the call of a read to its return. Response time runs from the moment the"
                                + " chunk could be asked for, so waiting behind others counts too: it is what the player's buffer"
                                + " feels."));
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            if (phase.kind() == PhaseKind.TAKE || phase.kind() == PhaseKind.PLAYBACK) {
                blocks.add(take(record, i, charts));
                Latency flush = phase.flush();
                if (flush != null && flush.count() > 0) {
                    blocks.add(Prose.of("Flushing is measured apart: " + Count.of(flush.count(), "flush", "flushes")
                            + ", half of them within " + Units.ms(flush.p50Us() / US_PER_MS) + ", the longest "
                            + Units.ms(flush.maxUs() / US_PER_MS) + "."));
                }
            }
        }
        if (blocks.size() == 1) {
            return new Section(
                    "times",
                    "Service and response time",
                    List.of(Prose.of("No take was made, so no times are known.")));
        }
        return new Section("times", "Service and response time", blocks);
    }

    private static Block take(RunRecord record, int index, List<ChartData> charts) {
        PhaseFacts phase = record.phases().get(index);
        String name = PhaseNames.of(record, index);
        PercentileCurve service = PercentileCurve.of(phase.service());
        PercentileCurve response = PercentileCurve.of(phase.response());
        if (service == null || response == null) {
            return Prose.of(name + ": the record holds no readable distribution of times.");
        }
        String id = "chart-times-" + index;
        charts.add(data(id, service, response));
        return new ChartView(
                id,
                name,
                "Line chart: service and response time of a chunk by percentile in the "
                        + name.toLowerCase(Locale.ROOT),
                Shown.whole("Half of the chunks came back within " + Units.ms(service.ms(50))
                        + " of the call, 99 % within "
                        + Units.ms(service.ms(99)) + ", all within " + Units.ms(service.ms(100))
                        + "; counted from the moment they "
                        + (phase.kind() == PhaseKind.PLAYBACK ? "could be asked for" : "were ready") + ", all within "
                        + Units.ms(response.ms(100)) + "."),
                List.of(
                        new ChartView.Key("service", false, "service time"),
                        new ChartView.Key("response", false, "response time")),
                table(name, service, response));
    }

    private static ChartData data(String id, PercentileCurve service, PercentileCurve response) {
        double most = Math.max(10, (double) Math.max(service.count(), response.count()));
        List<Double> x = new ArrayList<>();
        List<Double> serviceY = new ArrayList<>();
        List<Double> responseY = new ArrayList<>();
        int last = (int) Math.ceil(StrictMath.log10(most) * POINTS_PER_DECADE);
        for (int step = 0; step <= last; step++) {
            double nines = step == last ? most : StrictMath.pow(10, step / (double) POINTS_PER_DECADE);
            double percentile = step == last ? 100 : 100 * (1 - 1 / nines);
            x.add(rounded(nines));
            serviceY.add(drawn(service.ms(percentile)));
            responseY.add(drawn(response.ms(percentile)));
        }
        return new ChartData(
                id,
                "nines",
                "ms",
                true,
                x,
                List.of(
                        new ChartData.Line("response", "response", responseY),
                        new ChartData.Line("service", "service", serviceY)),
                List.of(),
                List.of(),
                List.of());
    }

    /** A log axis has no zero: anything below 1 µs is drawn there. */
    private static double drawn(double ms) {
        return Math.max(0.001, rounded(ms));
    }

    private static double rounded(double value) {
        return Math.round(value * 1e4) / 1e4;
    }

    private static Grid table(String name, PercentileCurve service, PercentileCurve response) {
        List<List<Shown>> rows = new ArrayList<>();
        for (double percentile : TABLE) {
            rows.add(Grid.row(
                    percentile == 100 ? "all" : Units.percent(percentile / 100),
                    Units.ms(service.ms(percentile)),
                    Units.ms(response.ms(percentile))));
        }
        return new Grid(
                name + ": " + Count.of(service.count(), "chunk") + ", the share that took no longer than",
                List.of("Share of chunks", "Service time", "Response time"),
                rows,
                "");
    }
}
