package tracksoak.report.page;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.RecorderBuffer;
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
        int worst = Worst.phase(record);
        double peakMs = 0;
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            if (phase.kind() == PhaseKind.TAKE && i != worst) {
                add(record, i, blocks, charts);
                peakMs = Math.max(peakMs, phase.peakBacklogMs());
            }
        }
        String figure = blocks.isEmpty() ? "" : Units.ms(peakMs);
        String gist = "The takes that went better than the one above";
        if (blocks.isEmpty() && worst < 0 && record.session().kind() == SessionKind.RECORDING) {
            blocks.add(Prose.of("No take was made, so nothing is known about the backlog."));
            gist = "No take was made";
        }
        return new Section("backlog", "Backlog in the other takes", gist, figure, blocks);
    }

    /** The backlog of the worst take, or what the player's buffer lacked; empty where neither has a curve. */
    static List<Block> worst(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        int worst = Worst.phase(record);
        if (worst >= 0 && record.phases().get(worst).kind() == PhaseKind.TAKE) {
            add(record, worst, blocks, charts);
        } else if (worst >= 0) {
            PlaybackPart.chart(record, worst, blocks, charts);
        }
        return blocks;
    }

    /** Audio that waits for its chunk to be full, in ms: the backlog that no drive can avoid. */
    private static double fillingMs(RunRecord record) {
        int chunkBytes = record.method().chunkBytes();
        return record.session().streams().stream()
                .mapToDouble(stream -> chunkBytes * 1000.0 / Math.max(1, stream.bytesPerSecond()))
                .max()
                .orElse(0);
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
        double fillingMs = Math.min(fillingMs(record), bufferMs);
        charts.add(data(
                id,
                take,
                List.of(
                        new ChartData.Level(
                                "buffer",
                                "buffer " + Units.seconds(record.session().bufferS()),
                                bufferMs),
                        new ChartData.Level("normal", "normal: chunks filling", fillingMs)),
                backlog,
                hostMatters ? host : null));
        List<ChartView.Key> key = new ArrayList<>();
        key.add(new ChartView.Key("backlog", false, "largest backlog in each second"));
        key.add(new ChartView.Key("buffer", false, "the recorder's buffer"));
        key.add(new ChartView.Key("normal", false, "normal on any drive: audio waits until its chunk is full"));
        if (hostMatters) {
            key.add(new ChartView.Key("host", false, "delay of the computer itself"));
        }
        if (!take.stalls().isEmpty()) {
            key.add(new ChartView.Key("stall", true, "stall (height = how long)"));
        }
        if (!take.overruns().isEmpty()) {
            key.add(new ChartView.Key("overrun", true, "overrun: audio lost"));
        }
        blocks.add(new ChartView(
                id,
                index == Worst.phase(record) ? "Backlog against the buffer: " + name.toLowerCase(Locale.ROOT) : name,
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
                + (record.session().bufferAssumed()
                        ? " (a guess, nobody has measured it)"
                        : RecorderBuffer.measured(record.session()).isPresent() ? " (measured)" : "")
                + ". Up to "
                + Units.ms(fillingMs(record)) + " of backlog is normal: audio waits until its chunk is full. "
                + (take.stallCount() == 1 ? "There was " : "There were ") + Count.of(take.stallCount(), "stall")
                + (StallsPart.neverEnded(take) ? " and a pause without an end" : "")
                + (take.lostMs() > 0
                        ? ", and " + Units.ms(take.lostMs()) + " of audio was lost on the worst track."
                        : ", and no audio was lost.");
        HostDelays delays = take.hostDelays();
        if (hostMatters) {
            return text + " The computer's own delays are drawn too: they are long enough to matter.";
        }
        return delays == null || delays.canaryMaxMs() <= 0
                ? text
                : text + " The computer's own delays stayed within " + Units.ms(delays.canaryMaxMs())
                        + " and are not drawn.";
    }

    /** Without the part of a second a phase ended in, which would look like a fall, unless it holds a rise. */
    private static double[] drawn(PhaseFacts phase, double[] values) {
        int last = values.length - 1;
        boolean part = phase.seconds() < values.length - 0.01;
        return part && last > 0 && values[last] < values[last - 1] ? Arrays.copyOf(values, last) : values;
    }

    /** @param levels the buffer first */
    static ChartData data(
            String id, PhaseFacts take, List<ChartData.Level> levels, double[] backlog, double @Nullable [] host) {
        int[] kept = Thinning.peaks(drawn(take, backlog), ChartData.MOST_POINTS);
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
            marks.add(new ChartData.Mark("overrun", overrun.atS(), levels.get(0).y()));
        }
        return new ChartData(id, "time", "ms", false, x, lines, levels, List.of(), marks);
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
                cells);
    }
}
