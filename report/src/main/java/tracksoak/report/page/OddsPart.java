package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.ChartView;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.verdict.OddsWords;

/** The chance that a show meets a wait longer than the buffer, with its method, or why there is none. */
final class OddsPart {

    private static final String ID = "chart-odds";

    /** The curve is drawn up to so many buffers; what lies beyond is as bad. */
    private static final double DRAWN_BUFFERS = 10;

    private OddsPart() {}

    static Section of(Odds odds, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        blocks.add(Prose.of(odds.sentence()));
        Odds.Fit fit = odds.fit();
        if (fit == null) {
            blocks.add(Prose.of("No PASS depends on these odds alone."));
        } else {
            blocks.add(Prose.of("They carry on the "
                    + Count.of(fit.peaks(), "peak") + " above " + Units.ms(fit.thresholdMs()) + " seen in "
                    + Units.seconds(fit.watchedS())
                    + " of the take, as storms and floods are carried on from years of measuring. That holds only if"
                    + " longer waits come from the same causes; a cause the take did not meet is not in them."));
            blocks.add(chart(odds, fit, charts));
            blocks.add(method(odds, fit));
        }
        return new Section(
                "odds",
                "Odds for the show",
                fit == null
                        ? "The test cannot say how likely a dropout is"
                        : "How likely a dropout is in a show this long",
                fit == null ? "" : OddsWords.interval(fit.leastChance(), fit.mostChance()),
                blocks);
    }

    private static ChartView chart(Odds odds, Odds.Fit fit, List<ChartData> charts) {
        double most = DRAWN_BUFFERS * odds.bufferMs();
        charts.add(new ChartData(
                ID,
                "every",
                "ms",
                true,
                fit.curve().stream().map(Odds.Level::everyS).toList(),
                List.of(
                        new ChartData.Line("backlog", "most likely", drawn(fit, Odds.Level::ms, most)),
                        new ChartData.Line("floor", "at least", drawn(fit, Odds.Level::leastMs, most)),
                        new ChartData.Line("floor", "at most", drawn(fit, Odds.Level::mostMs, most))),
                List.of(new ChartData.Level("buffer", "buffer", odds.bufferMs())),
                List.of(new ChartData.Upright("cliff", "this show", odds.showS())),
                fit.highest().stream()
                        .filter(seen -> seen.everyS() >= fit.curve().get(0).everyS())
                        .map(seen -> new ChartData.Mark("held", seen.everyS(), Math.min(most, seen.ms())))
                        .toList()));
        Odds.Level last = fit.curve().get(fit.curve().size() - 1);
        return new ChartView(
                ID,
                "Backlog passed once in so long",
                "Line chart: the backlog that is passed once in a given time on average, with its interval, the peaks seen,"
                        + " the buffer and the length of the show",
                Shown.whole("Once in " + Units.seconds(last.everyS()) + " a backlog "
                        + (last.ms() > most ? "" : "of about ") + far(last.ms(), most) + " is to be expected (95 %: "
                        + interval(last, most) + "); the buffer holds " + Units.ms(odds.bufferMs()) + "."),
                List.of(
                        new ChartView.Key("backlog", false, "backlog passed once in that time, most likely"),
                        new ChartView.Key("floor", false, "ends of the 95 % interval"),
                        new ChartView.Key("held", true, "peak seen"),
                        new ChartView.Key("buffer", false, "the recorder's buffer"),
                        new ChartView.Key("cliff", false, "length of the show")),
                table(fit, most));
    }

    private static List<Double> drawn(Odds.Fit fit, ToDoubleFunction<Odds.Level> value, double most) {
        return fit.curve().stream()
                .map(level -> Math.min(most, value.applyAsDouble(level)))
                .toList();
    }

    private static String far(double ms, double most) {
        return ms > most ? "beyond " + Units.ms(most) : Units.ms(ms);
    }

    private static String interval(Odds.Level level, double most) {
        String least = far(level.leastMs(), most);
        return level.leastMs() > most ? least : least + " to " + far(level.mostMs(), most);
    }

    private static Grid table(Odds.Fit fit, double most) {
        List<List<Shown>> rows = new ArrayList<>();
        for (Odds.Level level : fit.curve()) {
            rows.add(Grid.row(Units.seconds(level.everyS()), far(level.ms(), most), interval(level, most)));
        }
        return new Grid("Backlog passed once in so long, on average", List.of("Once in", "Most likely", "95 %"), rows);
    }

    private static Facts method(Odds odds, Odds.Fit fit) {
        return Facts.about("How the odds were worked out")
                .row("Show", Units.seconds(odds.showS()) + ", buffer " + Units.ms(odds.bufferMs()))
                .row(
                        "Peaks",
                        Count.of(fit.peaks(), "peak") + " above " + Units.ms(fit.thresholdMs()) + ", separated by "
                                + fit.gapS() + " s or more below; " + Math.round(fit.perHour()) + " an hour")
                .row(
                        "Law of their size",
                        "generalised Pareto, maximum likelihood: shape " + fit.shape() + ", scale "
                                + Units.ms(fit.scaleMs()))
                .row("Peaks so far from that law by chance", Units.percent(fit.lawChance()) + " (above 5 % needed)")
                .row(
                        "Peaks that change so much in the take by chance",
                        Units.percent(fit.steadyChance()) + " (above 5 % needed)")
                .row(
                        "95 % interval",
                        OddsWords.interval(fit.leastChance(), fit.mostChance()) + ", by profile likelihood")
                .row(
                        "Simply counting",
                        Count.of(odds.overruns(), "wait") + " longer than the buffer in " + Units.seconds(odds.takeS())
                                + ": at most " + OddsWords.chance(odds.countChance()) + " (95 %, exact Poisson bound)")
                .build();
    }
}
