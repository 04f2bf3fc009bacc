package tracksoak.report.history;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.report.history.Change.Said;
import tracksoak.report.stats.Spread;
import tracksoak.report.stats.Trend;

/** Works out what became of every figure over the runs that can be compared. */
final class Comparing {

    private final Session session;
    private final Past latest;
    private final List<Past> comparable;

    /** @param comparable the runs that can be compared, in order of time, the latest last */
    Comparing(Session session, Past latest, List<Past> comparable) {
        this.session = session;
        this.latest = latest;
        this.comparable = comparable;
    }

    /** One figure over its runs. */
    private static final class Line {
        private final Figure figure;
        private final double[] days;
        private final double[] values;
        private final @Nullable Trend trend;

        private Line(Figure figure, double[] days, double[] values, @Nullable Trend trend) {
            this.figure = figure;
            this.days = days;
            this.values = values;
            this.trend = trend;
        }

        private double spanDays() {
            return days.length == 0 ? 0 : days[days.length - 1] - days[0];
        }

        private double chance(Trend found) {
            return figure.lessIsWorse() ? found.fallsByChance() : found.risesByChance();
        }
    }

    List<Change> changes() {
        List<Line> lines = new ArrayList<>();
        for (Figure figure : Figure.values()) {
            lines.add(line(figure));
        }
        List<Double> alone = new ArrayList<>();
        for (Line line : lines) {
            Trend found = line.trend;
            if (found != null) {
                alone.add(Asked.again(line.chance(found), found.n()));
            }
        }
        double[] chances =
                Trend.together(alone.stream().mapToDouble(each -> each).toArray());
        List<Change> changes = new ArrayList<>();
        int asked = 0;
        for (Line line : lines) {
            changes.add(change(line, line.trend == null ? null : chances[asked++]));
        }
        return List.copyOf(changes);
    }

    private Line line(Figure figure) {
        List<Past> having = comparable.stream()
                .filter(past -> past.values().containsKey(figure))
                .toList();
        double[] days = having.stream().mapToDouble(Past::day).toArray();
        double[] values =
                having.stream().mapToDouble(past -> value(past, figure)).toArray();
        boolean test = figure.ages()
                && latest.values().containsKey(figure)
                && days.length >= DriveHistory.LEAST_RUNS
                && days[days.length - 1] - days[0] >= DriveHistory.LEAST_DAYS
                && Spread.of(values).least() < Spread.of(values).most();
        return new Line(figure, days, values, test ? Trend.of(days, values) : null);
    }

    private static double value(Past past, Figure figure) {
        Double value = past.values().get(figure);
        return value == null ? Double.NaN : value;
    }

    private Change change(Line line, @Nullable Double chance) {
        Figure figure = line.figure;
        Double now = latest.values().get(figure);
        int before = line.values.length - (now == null ? 0 : 1);
        Spread earlier = before <= 0 ? null : Spread.of(Arrays.copyOf(line.values, before));
        Double limit = figure.limit(session);
        Said said = said(line, now, earlier, chance);
        return new Change(
                figure,
                now,
                earlier,
                limit,
                line.trend,
                chance,
                said,
                sentence(line, now, earlier, limit, said, chance));
    }

    private static Said said(Line line, @Nullable Double now, @Nullable Spread earlier, @Nullable Double chance) {
        if (now == null || earlier == null) {
            return Said.NOTHING;
        }
        if (line.trend != null && chance != null) {
            return chance <= DriveHistory.LEVEL ? Said.WORSE : Said.NO_CHANGE;
        }
        boolean same = earlier.least() == now && earlier.most() == now;
        return switch (line.figure) {
            case BAD_BLOCKS, CAPACITY -> same ? Said.NO_CHANGE : Said.OTHER;
            default ->
                same && line.days.length >= DriveHistory.LEAST_RUNS && line.spanDays() >= DriveHistory.LEAST_DAYS
                        ? Said.NO_CHANGE
                        : Said.TOO_FEW;
        };
    }

    private String sentence(
            Line line,
            @Nullable Double now,
            @Nullable Spread earlier,
            @Nullable Double limit,
            Said said,
            @Nullable Double chance) {
        Figure figure = line.figure;
        String name = Count.capital(figure.words());
        if (now == null) {
            return name + ": this run does not have it.";
        }
        if (earlier == null) {
            return name + ": " + figure.show(now) + "; no earlier run that can be compared has it.";
        }
        String range = range(figure, earlier);
        return switch (said) {
            case WORSE -> worse(line, now, limit, chance == null ? 1 : chance);
            case NO_CHANGE ->
                name + ": " + figure.show(now) + ", no change beyond the usual spread (" + range + ")."
                        + extreme(figure, now, earlier);
            case OTHER -> name + ": " + figure.show(now) + ", before " + range + ".";
            case TOO_FEW, NOTHING ->
                (line.figure == Figure.STALLS && now == 0 && earlier.most() == 0
                                ? "No stalls, before " + runs(earlier)
                                : name + ": " + figure.show(now) + ", before " + range)
                        + why(line) + "."
                        + extreme(figure, now, earlier);
        };
    }

    private static String runs(Spread earlier) {
        return earlier.n() == 1 ? "in one earlier run" : "in " + earlier.n() + " earlier runs";
    }

    private static String range(Figure figure, Spread earlier) {
        String runs = runs(earlier);
        return earlier.least() == earlier.most()
                ? figure.show(earlier.least()) + " " + runs
                : figure.show(earlier.least()) + " to " + figure.show(earlier.most()) + " " + runs + ", median "
                        + figure.show(earlier.median());
    }

    private static String why(Line line) {
        if (!line.figure.ages()) {
            return "";
        }
        if (line.days.length < DriveHistory.LEAST_RUNS) {
            return "";
        }
        return "; all runs lie within " + DaysInWords.words(line.spanDays()) + ", which is too short to tell ageing";
    }

    private static String extreme(Figure figure, double now, Spread earlier) {
        boolean beyond = figure.lessIsWorse() ? now < earlier.least() : now > earlier.most();
        return beyond && figure.ages()
                ? " It is the worst so far; chance alone makes the latest of " + (earlier.n() + 1)
                        + " runs the worst once in " + (earlier.n() + 1) + " times."
                : "";
    }

    private static String worse(Line line, double now, @Nullable Double limit, double chance) {
        Figure figure = line.figure;
        Trend trend = Objects.requireNonNull(line.trend);
        double first = line.values[0];
        String moved = figure.lessIsWorse() ? "fell" : "rose";
        boolean plain = figure.lessIsWorse() ? now < first : now > first;
        String fact = plain
                ? "The " + figure.words() + " " + moved + " from " + figure.show(first) + " to " + figure.show(now)
                        + " in " + DaysInWords.words(line.spanDays())
                : "The " + figure.words() + " gets worse by " + figure.show(Math.abs(trend.slope()) * 365.25 / 12)
                        + " a month";
        String ahead = limit == null
                ? ""
                : "; "
                        + LimitForecast.words(
                                trend,
                                figure,
                                limit,
                                line.days[0],
                                line.days[line.days.length - 1],
                                Spread.of(line.days).median());
        return fact + ahead + ". Found in " + trend.n() + " runs; chance alone makes such a line "
                + (chance < 0.001
                        ? "less than once in 1000 times"
                        : "in " + Math.round(chance * 1000) / 10.0 + " % of cases")
                + ".";
    }
}
