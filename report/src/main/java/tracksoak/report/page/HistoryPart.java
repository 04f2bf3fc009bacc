package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Count;
import tracksoak.report.history.Change;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.history.Figure;
import tracksoak.report.history.Past;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Bullets;
import tracksoak.report.page.view.ChartView;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.stats.Spread;
import tracksoak.report.stats.Trend;

/** What became of the drive over its earlier runs: sentence, curves, changes, and the runs themselves. */
final class HistoryPart {

    private static final List<Figure> DRAWN = List.of(Figure.FLOOR, Figure.PEAK_BACKLOG);
    /** Two runs make no trend. */
    private static final int LEAST_DRAWN = 3;

    private static final int MOST_ROWS = 60;
    private static final String NONE = "–";

    private HistoryPart() {}

    static Section of(DriveHistory history, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(Prose.of(history.sentence()));
        if (!history.notes().isEmpty()) {
            blocks.add(Bullets.of(history.notes()));
        }
        List<Past> comparable = history.comparable();
        for (Figure figure : DRAWN) {
            List<Past> having = comparable.stream()
                    .filter(past -> past.values().containsKey(figure))
                    .toList();
            if (having.size() >= LEAST_DRAWN) {
                blocks.add(chart(history, figure, having, charts));
            }
        }
        blocks.add(changes(history));
        blocks.add(runs(history));
        return new Section(
                "history",
                "This drive over time",
                history.sentence(),
                Count.of(history.earlier().size() + 1, "run"),
                blocks);
    }

    private static ChartView chart(DriveHistory history, Figure figure, List<Past> runs, List<ChartData> charts) {
        Change change = history.change(figure);
        String id = "chart-history-" + figure.words().replace(' ', '-');
        boolean rate = figure == Figure.FLOOR;
        double scale = rate ? 1e6 : 1;
        String style = rate ? "rate" : "backlog";
        String limitStyle = rate ? "demand" : "buffer";
        List<ChartData.Line> lines = new ArrayList<>();
        lines.add(new ChartData.Line(
                style,
                figure.words(),
                runs.stream().map(past -> rounded(value(past, figure) / scale)).toList()));
        List<ChartView.Key> key = new ArrayList<>();
        key.add(new ChartView.Key(style, false, figure.words() + " of each run that can be compared"));
        Trend trend = change.trend();
        if (trend != null && change.verdict() == Change.Said.WORSE) {
            lines.add(new ChartData.Line(
                    "floor",
                    "line through all",
                    runs.stream()
                            .map(past -> rounded(Math.max(0, trend.at(past.day())) / scale))
                            .toList()));
            key.add(new ChartView.Key("floor", false, "line through all runs (median of all slopes)"));
        }
        List<ChartData.Level> levels = new ArrayList<>();
        Double limit = change.limit();
        if (limit != null) {
            levels.add(new ChartData.Level(limitStyle, "asked " + figure.show(limit), limit / scale));
            key.add(new ChartView.Key(limitStyle, false, "what the session asks, its margin included"));
        }
        charts.add(new ChartData(
                id,
                "date",
                rate ? "MB/s" : "ms",
                false,
                runs.stream().map(past -> Math.round(past.day() * 1e4) / 1e4).toList(),
                lines,
                levels,
                List.of(),
                List.of()));
        return new ChartView(
                id,
                Count.capital(figure.words()) + " from run to run",
                "Line chart: " + figure.words() + " of each run over the date, with what the session asks",
                Shown.whole(
                        history.sentence().contains(change.sentence())
                                ? figure.show(value(runs.get(0), figure)) + " in the first of "
                                        + Count.of(runs.size(), "run") + " that can be compared, "
                                        + figure.show(value(runs.get(runs.size() - 1), figure)) + " in the latest."
                                : change.sentence()),
                key,
                table(figure, runs));
    }

    private static Grid table(Figure figure, List<Past> runs) {
        List<List<Shown>> rows = runs.stream()
                .skip(Math.max(0, runs.size() - MOST_ROWS))
                .map(past -> Grid.row(past.date(), figure.show(value(past, figure))))
                .toList();
        return new Grid(
                Count.capital(figure.words()) + " of each run",
                List.of("Run on", Count.capital(figure.words())),
                rows,
                left(runs.size(), rows.size()));
    }

    private static Grid changes(DriveHistory history) {
        List<List<Shown>> rows = new ArrayList<>();
        for (Change change : history.changes()) {
            Figure figure = change.figure();
            Spread earlier = change.earlier();
            if (change.now() != null || earlier != null) {
                rows.add(List.of(
                        Shown.of(Count.capital(figure.words())),
                        Shown.of(show(figure, change.now())),
                        Shown.of(earlier == null ? NONE : range(figure, earlier)),
                        Shown.of(show(figure, change.limit())),
                        Shown.whole(change.sentence())));
            }
        }
        return new Grid(
                "What changed, over the runs that can be compared",
                List.of(
                        "Figure",
                        "This run",
                        "Earlier runs, lowest to highest (median)",
                        "The session asks",
                        "In words"),
                rows);
    }

    private static Grid runs(DriveHistory history) {
        List<Past> all = new ArrayList<>(history.earlier());
        all.add(history.latest());
        List<List<Shown>> rows = all.stream()
                .skip(Math.max(0, all.size() - MOST_ROWS))
                .map(past -> List.of(
                        Shown.of(past.date()),
                        Shown.of(past.plan()),
                        Shown.of(past.session()),
                        Shown.of(outcome(past.outcome())),
                        Shown.of(show(Figure.FLOOR, past.values().get(Figure.FLOOR))),
                        Shown.of(show(Figure.PEAK_BACKLOG, past.values().get(Figure.PEAK_BACKLOG))),
                        Shown.whole(past.comparable() ? "yes" : "no: " + String.join("; ", past.differences()))))
                .toList();
        return new Grid(
                "All runs of this drive, the latest last",
                List.of("Run on", "Plan", "Session", "Verdict", "Floor", "Peak backlog", "Compared"),
                rows,
                left(all.size(), rows.size()));
    }

    private static String left(int all, int shown) {
        return all == shown ? "" : "Only the latest " + shown + " of " + all + " are listed.";
    }

    private static String range(Figure figure, Spread spread) {
        String least = figure.show(spread.least());
        String most = figure.show(spread.most());
        return least.equals(most) ? least : least + " to " + most + " (" + figure.show(spread.median()) + ")";
    }

    private static String show(Figure figure, @Nullable Double value) {
        return value == null ? NONE : figure.show(value);
    }

    private static String outcome(Verdict.@Nullable Outcome outcome) {
        return outcome == null ? NONE : outcome.words();
    }

    private static double value(Past past, Figure figure) {
        return Objects.requireNonNull(past.values().get(figure));
    }

    private static double rounded(double value) {
        return Math.round(value * 1e3) / 1e3;
    }
}
