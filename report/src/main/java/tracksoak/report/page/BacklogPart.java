package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.chart.Thinning;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.ChartView;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Series;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.record.facts.Verdict;

/** Backlog against buffer over time, one chart per take. */
final class BacklogPart implements Part {

    private static final int TABLE_ROWS = 40;
    /** Host delay is drawn once it reaches this part of the buffer. */
    private static final double HOST_MATTERS = 0.05;

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        for (int i = 0; i < record.phases().size(); i++) {
            if (record.phases().get(i).kind() == PhaseKind.TAKE) {
                add(record, i, blocks, charts);
            }
        }
        if (blocks.isEmpty() && record.session().kind() == SessionKind.RECORDING) {
            blocks.add(Prose.of("No take was made, so nothing is known about the backlog."));
        }
        return new Section("backlog", "Backlog against the buffer", blocks);
    }

    private static void add(RunRecord record, int index, List<Block> blocks, List<ChartData> charts) {
        PhaseFacts take = record.phases().get(index);
        Series series = take.series();
        String name = PhaseNames.of(record, index);
        if (series == null || series.length() == 0) {
            blocks.add(Prose.of(name + ": ended before its first second, so there is no curve."));
            return;
        }
        double bufferMs = record.session().bufferS() * 1000;
        double[] backlog = series.maxBacklogMs().stream().asDoubleStream().toArray();
        double[] host = series.hostDelayMs().stream().asDoubleStream().toArray();
        boolean hostMatters =
                Thinning.highest(host, 0, host.length) >= bufferMs * HOST_MATTERS || decidedByHost(record.verdict());
        String id = "chart-backlog-" + index;
        charts.add(data(
                id, take, bufferMs, Units.seconds(record.session().bufferS()), backlog, hostMatters ? host : null));
        List<ChartView.Key> key = new ArrayList<>();
        key.add(new ChartView.Key("backlog", false, "largest backlog in each second"));
        key.add(new ChartView.Key("buffer", false, "the recorder's buffer"));
        if (hostMatters) {
            key.add(new ChartView.Key("host", false, "delay of the computer itself"));
        }
        if (!take.stalls().isEmpty()) {
            key.add(new ChartView.Key("stall", true, "stall, as high as it was long"));
        }
        if (!take.overruns().isEmpty()) {
            key.add(new ChartView.Key("overrun", true, "overrun: audio lost"));
        }
        blocks.add(new ChartView(
                id,
                name,
                "Line chart: the largest backlog in each second of the " + name.toLowerCase(Locale.ROOT)
                        + ", against the recorder's buffer of "
                        + Units.seconds(record.session().bufferS()),
                Shown.whole(summary(record, take, hostMatters)),
                key,
                table(name, backlog, host)));
    }

    private static boolean decidedByHost(@Nullable Verdict verdict) {
        return verdict != null && verdict.criteria().stream().anyMatch(Criterion::decidedByHost);
    }

    private static String summary(RunRecord record, PhaseFacts take, boolean hostMatters) {
        String text = "The backlog peaked at " + Units.ms(take.peakBacklogMs()) + " of audio, "
                + Units.seconds(take.peakBacklogAtS()) + " into the take; the buffer holds "
                + Units.seconds(record.session().bufferS())
                + (record.session().bufferAssumed() ? " (an assumption, nobody has measured it)" : "") + ". "
                + (take.stallCount() == 1 ? "There was " : "There were ") + Count.of(take.stallCount(), "stall")
                + (take.lostMs() > 0
                        ? ", and " + Units.ms(take.lostMs()) + " of audio was lost on the worst track."
                        : ", and no audio was lost.");
        HostDelays delays = take.hostDelays();
        if (hostMatters) {
            return text + " The computer's own delays are drawn too: they are long enough to matter.";
        }
        return delays == null
                ? text
                : text + " The computer's own delays stayed within " + Units.ms(delays.canaryMaxMs())
                        + " and are not drawn.";
    }

    static ChartData data(
            String id, PhaseFacts take, double bufferMs, String buffer, double[] backlog, double @Nullable [] host) {
        int[] kept = Thinning.peaks(backlog, ChartData.MOST_POINTS);
        List<Double> x = new ArrayList<>();
        List<Double> y = new ArrayList<>();
        List<Double> hostY = new ArrayList<>();
        for (int k = 0; k < kept.length; k++) {
            x.add(kept[k] + 0.5);
            y.add(backlog[kept[k]]);
            if (host != null) {
                int from = Thinning.start(k, kept.length, host);
                hostY.add(Thinning.highest(host, from, Math.max(from + 1, Thinning.start(k + 1, kept.length, host))));
            }
        }
        List<ChartData.Line> lines = new ArrayList<>();
        if (host != null) {
            lines.add(new ChartData.Line("host", "computer", hostY));
        }
        lines.add(new ChartData.Line("backlog", "backlog", y));
        List<ChartData.Mark> marks = new ArrayList<>();
        for (Stall stall : take.stalls()) {
            marks.add(new ChartData.Mark("stall", stall.atS(), stall.ms()));
        }
        for (Overrun overrun : take.overruns()) {
            marks.add(new ChartData.Mark("overrun", overrun.atS(), bufferMs));
        }
        return new ChartData(
                id,
                "time",
                "ms",
                false,
                x,
                lines,
                List.of(new ChartData.Level("buffer", "buffer " + buffer, bufferMs)),
                List.of(),
                marks);
    }

    static Grid table(String name, double[] backlog, double[] host) {
        int rows = Math.min(TABLE_ROWS, backlog.length);
        List<List<Shown>> cells = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            int from = Thinning.start(row, rows, backlog);
            int to = Thinning.start(row + 1, rows, backlog);
            cells.add(Grid.row(
                    Units.seconds(from) + " to " + Units.seconds(to),
                    Units.ms(Thinning.highest(backlog, from, to)),
                    Units.ms(Thinning.highest(host, from, to))));
        }
        return new Grid(
                name + ": largest backlog and longest delay of the computer in each span",
                List.of("Span", "Largest backlog", "Computer's delay"),
                cells,
                "");
    }
}
