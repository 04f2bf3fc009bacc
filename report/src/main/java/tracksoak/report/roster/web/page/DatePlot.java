package tracksoak.report.roster.web.page;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tracksoak.profiles.base.Times;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.DateChart;
import tracksoak.report.roster.web.page.view.DateChart.Point;
import tracksoak.report.roster.web.page.view.DateChart.Tick;

/** Lays values out over dates. Runs stand at equal distances where two would lie closer than can be told apart. */
final class DatePlot {

    /**
     * One run.
     *
     * @param state {@code pass}, {@code fail} or {@code none}
     * @param text the value in words
     */
    record Value(Instant at, double value, String state, String text) {}

    private static final int MOST_DATES = 5;
    private static final int LEVELS = 4;
    private static final double HEADROOM = 1.1;

    private DatePlot() {}

    /**
     * The chart.
     *
     * @param values in the order of their dates, at least one
     * @param need what is needed, below 0 for none
     */
    static DateChart of(
            String title, String label, String summary, String unit, List<Value> values, double need, String needText) {
        double most =
                Math.max(need, values.stream().mapToDouble(Value::value).max().orElse(0));
        double step = step(Math.max(most, 1e-9) * HEADROOM);
        double top = step * Math.ceil(Math.max(most, 1e-9) * HEADROOM / step);
        List<Tick> levels = new ArrayList<>();
        for (int k = 0; k * step <= top * (1 + 1e-9); k++) {
            levels.add(new Tick(y(k * step, top), number(k * step)));
        }
        long first = values.get(0).at().toEpochMilli();
        long span = Math.max(1, values.get(values.size() - 1).at().toEpochMilli() - first);
        List<Point> points = new ArrayList<>();
        StringBuilder line = new StringBuilder();
        for (Value value : values) {
            double share = values.size() == 1 ? 0.5 : (value.at().toEpochMilli() - first) / (double) span;
            double x = round(DateChart.LEFT + 14 + share * (DateChart.RIGHT - DateChart.LEFT - 28));
            double y = y(value.value(), top);
            points.add(new Point(x, y, value.state(), Times.day(value.at()) + ": " + value.text()));
            line.append(line.isEmpty() ? 'M' : 'L').append(x).append(' ').append(y);
        }
        return new DateChart(
                title,
                label,
                Shown.whole(summary),
                unit,
                line.toString(),
                points,
                levels,
                dates(values, points),
                need < 0 ? -1 : y(need, top),
                needText);
    }

    /** Dates that do not run into each other. */
    private static List<Tick> dates(List<Value> values, List<Point> points) {
        double room = (DateChart.RIGHT - DateChart.LEFT) / (double) MOST_DATES;
        List<Tick> dates = new ArrayList<>();
        double last = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < values.size(); i++) {
            if (points.get(i).x() - last >= room) {
                last = points.get(i).x();
                double inside = Math.min(DateChart.RIGHT - 20, Math.max(DateChart.LEFT + 20, last));
                dates.add(new Tick(round(inside), Times.day(values.get(i).at())));
            }
        }
        return dates;
    }

    /** 1, 2 or 5 times a power of ten. */
    private static double step(double most) {
        double rough = most / LEVELS;
        double power = StrictMath.pow(10, Math.floor(StrictMath.log10(rough)));
        double digit = rough / power;
        return power * (digit <= 1 ? 1 : digit <= 2 ? 2 : digit <= 5 ? 5 : 10);
    }

    private static double y(double value, double top) {
        return round(DateChart.BOTTOM - value / top * (DateChart.BOTTOM - DateChart.TOP));
    }

    private static double round(double value) {
        return Math.round(value * 10) / 10.0;
    }

    private static String number(double value) {
        return value == Math.rint(value)
                ? String.valueOf((long) value)
                : String.format(Locale.ROOT, "%.3g", value).replaceAll("0+$", "");
    }
}
