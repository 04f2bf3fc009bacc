package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Margins;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.ChartView;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbStep;

/** Margin over tracks, and every try. */
final class ClimbLooks {

    /** Margins are drawn up to so many times what is asked: above that nothing is decided. */
    private static final double DRAWN = 4;

    private static final String ID = "chart-climb";

    private ClimbLooks() {}

    /** Margin over what grows, the picture of the whole climb. */
    static List<Block> curve(ClimbRecord record, List<ChartData> charts) {
        Map<Integer, ClimbStep> takes = takes(record);
        if (takes.isEmpty()) {
            return List.of(Prose.of("No take was made to its end, so there is no curve."));
        }
        charts.add(data(record, takes));
        return List.of(chart(record));
    }

    /** Every try. */
    static Section all(ClimbRecord record) {
        return new Section(
                "looks",
                "Every try, one by one",
                "What each number showed, in the order they were tried",
                Count.of(record.steps().size(), "try", "tries"),
                record.steps().isEmpty() ? List.of(Prose.of("Nothing was tried.")) : List.of(table(record)));
    }

    /** The last take at each value that measured both margins, rising. */
    private static Map<Integer, ClimbStep> takes(ClimbRecord record) {
        Map<Integer, ClimbStep> takes = new TreeMap<>();
        for (ClimbStep step : record.steps()) {
            if (step.kind() == ClimbStep.Kind.TAKE && step.bufferMargin() != null && step.rateMargin() != null) {
                takes.put(step.at(), step);
            }
        }
        return takes;
    }

    private static ChartData data(ClimbRecord record, Map<Integer, ClimbStep> takes) {
        Margins asked = record.session().margins();
        double most = DRAWN * Math.max(asked.buffer(), asked.rate());
        List<ChartData.Mark> marks = new ArrayList<>();
        for (ClimbStep step : record.steps()) {
            if (step.kind() == ClimbStep.Kind.CHECK && step.carried() != null) {
                double height =
                        Math.min(most, Math.min(orMost(step.bufferMargin(), most), orMost(step.rateMargin(), most)));
                marks.add(new ChartData.Mark(step.carried() ? "held" : "overrun", x(record, step.at()), height));
            }
        }
        List<ChartData.Level> levels = new ArrayList<>();
        levels.add(new ChartData.Level(
                "demand",
                (asked.buffer() == asked.rate() ? "asked " : "rate asked ") + Units.factor(asked.rate()),
                asked.rate()));
        if (asked.buffer() != asked.rate()) {
            levels.add(new ChartData.Level("buffer", "buffer asked " + Units.factor(asked.buffer()), asked.buffer()));
        }
        return new ChartData(
                ID,
                record.ladder().grows() == ClimbRecord.Grows.TRACKS ? "tracks" : "khz",
                "×",
                false,
                takes.keySet().stream().map(at -> x(record, at)).toList(),
                List.of(
                        line(
                                "backlog",
                                "buffer margin",
                                takes.values().stream()
                                        .map(ClimbStep::bufferMargin)
                                        .toList(),
                                most),
                        line(
                                "response",
                                "rate margin",
                                takes.values().stream()
                                        .map(ClimbStep::rateMargin)
                                        .toList(),
                                most)),
                levels,
                uprights(record),
                marks);
    }

    private static ChartData.Line line(String style, String text, List<Double> margins, double most) {
        return new ChartData.Line(
                style,
                text,
                margins.stream()
                        .map(margin -> Math.round(Math.min(margin, most) * 1e4) / 1e4)
                        .toList());
    }

    private static List<ChartData.Upright> uprights(ClimbRecord record) {
        List<ChartData.Upright> uprights = new ArrayList<>();
        ClimbResult result = record.result();
        if (result != null) {
            upright(record, "floor", "with margin", result.withMargin(), uprights);
            upright(record, "cliff", "before loss", result.beforeLoss(), uprights);
        }
        return uprights;
    }

    private static void upright(
            ClimbRecord record,
            String style,
            String what,
            ClimbResult.@Nullable Edge edge,
            List<ChartData.Upright> uprights) {
        Integer at = edge == null ? null : edge.at();
        if (at != null) {
            uprights.add(new ChartData.Upright(style, ClimbWords.amount(record, at) + " " + what, x(record, at)));
        }
    }

    private static double x(ClimbRecord record, int value) {
        return record.ladder().grows() == ClimbRecord.Grows.TRACKS ? value : value / 1000.0;
    }

    private static double orMost(@Nullable Double margin, double most) {
        return margin == null ? most : margin;
    }

    private static ChartView chart(ClimbRecord record) {
        Margins asked = record.session().margins();
        String most = Units.factor(DRAWN * Math.max(asked.buffer(), asked.rate()));
        String grows = record.ladder().grows() == ClimbRecord.Grows.TRACKS ? "the number of tracks" : "the sample rate";
        List<ChartView.Key> key = new ArrayList<>(List.of(
                new ChartView.Key("backlog", false, "buffer margin in short takes"),
                new ChartView.Key("response", false, "rate margin in short takes"),
                new ChartView.Key(
                        "demand", false, asked.buffer() == asked.rate() ? "margin asked" : "rate margin asked")));
        if (asked.buffer() != asked.rate()) {
            key.add(new ChartView.Key("buffer", false, "buffer margin asked"));
        }
        key.add(new ChartView.Key("held", true, "sound-check that held, at its least margin"));
        key.add(new ChartView.Key("overrun", true, "sound-check that did not"));
        return new ChartView(
                ID,
                "Margin over " + grows,
                "Line chart: buffer margin and rate margin of the short takes over " + grows
                        + ", against the margins asked",
                Shown.whole("A line must stay above what is asked of it. Margins above " + most + " are drawn at "
                        + most + "."),
                key,
                table(record));
    }

    private static Grid table(ClimbRecord record) {
        List<List<Shown>> rows = new ArrayList<>();
        for (ClimbStep step : record.steps()) {
            rows.add(Grid.row(
                    ClimbWords.amount(record, step.at()),
                    step.kind() == ClimbStep.Kind.TAKE ? "short take" : "sound-check",
                    margin(step.bufferMargin()),
                    margin(step.rateMargin()),
                    Units.ms(step.peakBacklogMs()),
                    step.lostUncounted()
                            ? "all after it stopped"
                            : step.lostMs() > 0 ? Units.ms(step.lostMs()) : "none",
                    step.carried() == null
                            ? "unknown"
                            : step.carried() ? "held" : "missed " + ClimbWords.missed(step)));
        }
        return new Grid(
                "Every try, in the order they were made",
                List.of("At", "Kind", "Buffer margin", "Rate margin", "Peak backlog", "Audio lost", "Result"),
                rows);
    }

    private static String margin(@Nullable Double margin) {
        return margin == null ? "not measured" : Units.factor(margin);
    }
}
