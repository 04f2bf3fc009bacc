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

        /** Whether it moves by more than is too little to matter: by the line, or where that is level by first and last. */
        private boolean moves(Trend found) {
            double moved = found.slope() != 0 ? found.slope() * spanDays() : values[values.length - 1] - values[0];
            return Math.abs(moved) > Change.tooLittle(Spread.of(values));
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
        LimitForecast ahead = said == Said.WORSE && now != null && limit != null ? ahead(line, now, limit) : null;
        Change change = new Change(
                figure, now, earlier, limit, line.trend, chance, ahead == null ? null : ahead.leftDays(), said, "");
        return change.saying(sentence(line, change, ahead));
    }

    private static Said said(Line line, @Nullable Double now, @Nullable Spread earlier, @Nullable Double chance) {
        if (now == null || earlier == null) {
            return Said.NOTHING;
        }
        Trend trend = line.trend;
        if (trend != null && chance != null && chance <= DriveHistory.LEVEL && line.moves(trend)) {
            return Said.WORSE;
        }
        if (Change.apart(line.figure, now, earlier)) {
            return Said.APART;
        }
        if (trend != null) {
            return Said.NO_CHANGE;
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

    private static LimitForecast ahead(Line line, double now, double limit) {
        return LimitForecast.of(
                Objects.requireNonNull(line.trend),
                line.figure,
                now,
                limit,
                line.days[0],
                line.days[line.days.length - 1],
                Spread.of(line.days).median());
    }

    private static String sentence(Line line, Change change, @Nullable LimitForecast ahead) {
        Figure figure = line.figure;
        Double now = change.now();
        Spread earlier = change.earlier();
        String name = Count.capital(figure.words()) + ": ";
        if (now == null) {
            return name + "this run does not have it.";
        }
        if (earlier == null) {
            return name + figure.show(now) + "; no earlier run that can be compared has it.";
        }
        String against = name + figure.show(now) + ", before " + range(figure, earlier);
        String trend = line.trend == null ? why(line) : "; no trend for the worse over " + line.values.length + " runs";
        return switch (change.verdict()) {
            case WORSE -> worse(line, now, ahead, change.chance() == null ? 1 : change.chance());
            case APART ->
                against + trend + ". It is the worst so far, by more than the earlier runs lie apart; "
                        + byChance(earlier) + ".";
            case NO_CHANGE ->
                change.worst()
                        ? against + trend + ". It is the worst so far; " + byChance(earlier) + "."
                        : name + figure.show(now) + ", no change for the worse beyond the usual spread ("
                                + range(figure, earlier) + ").";
            case OTHER -> against + ".";
            case TOO_FEW, NOTHING ->
                (figure == Figure.STALLS && now == 0 && earlier.most() == 0
                                ? "No stalls, before " + runs(earlier)
                                : against)
                        + trend + "."
                        + (change.worst() ? " It is the worst so far; " + byChance(earlier) + "." : "");
        };
    }

    /** What the latest run has, and what the earlier ones had. */
    static String against(Change change) {
        Figure figure = change.figure();
        Spread earlier = Objects.requireNonNull(change.earlier());
        return figure.words() + " " + figure.show(Objects.requireNonNull(change.now())) + ", before "
                + ends(figure, earlier);
    }

    static String byChance(Spread earlier) {
        int runs = earlier.n() + 1;
        return "chance alone makes the latest of " + runs + " runs the worst once in " + runs + " times";
    }

    private static String runs(Spread earlier) {
        return earlier.n() == 1 ? "in one earlier run" : "in " + earlier.n() + " earlier runs";
    }

    private static String range(Figure figure, Spread earlier) {
        String ends = ends(figure, earlier);
        return ends + " " + runs(earlier)
                + (ends.equals(figure.show(earlier.median())) ? "" : ", median " + figure.show(earlier.median()));
    }

    private static String ends(Figure figure, Spread earlier) {
        String least = figure.show(earlier.least());
        String most = figure.show(earlier.most());
        return least.equals(most) ? least : least + " to " + most;
    }

    private static String why(Line line) {
        if (!line.figure.ages()
                || line.days.length < DriveHistory.LEAST_RUNS
                || line.spanDays() >= DriveHistory.LEAST_DAYS) {
            return "";
        }
        return "; all runs lie within " + DaysInWords.atMost(line.spanDays()) + ", which is too short to tell ageing";
    }

    private static String worse(Line line, double now, @Nullable LimitForecast ahead, double chance) {
        Figure figure = line.figure;
        Trend trend = Objects.requireNonNull(line.trend);
        double first = line.values[0];
        String moved = figure.lessIsWorse() ? "fell" : "rose";
        boolean plain = (figure.lessIsWorse() ? now < first : now > first)
                && !figure.show(now).equals(figure.show(first));
        String fact = plain
                ? "The " + figure.words() + " " + moved + " from " + figure.show(first) + " to " + figure.show(now)
                        + " in " + DaysInWords.words(line.spanDays())
                : "The " + figure.words() + " gets worse by " + figure.show(Math.abs(trend.slope()) * 365.25 / 12)
                        + " a month";
        return fact + (ahead == null ? "" : "; " + ahead.words()) + ". Found in " + trend.n()
                + " runs; chance alone makes such a line "
                + (chance < 0.001
                        ? "less than once in 1000 times"
                        : "in " + Math.round(chance * 1000) / 10.0 + " % of cases")
                + ".";
    }
}
