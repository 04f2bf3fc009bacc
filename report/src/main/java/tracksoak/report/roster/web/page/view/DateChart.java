package tracksoak.report.roster.web.page.view;

import java.util.List;
import tracksoak.report.page.view.Shown;

/**
 * Points over dates, as a picture that needs no script. Places are in a box of {@value #WIDTH} by {@value #HEIGHT}.
 *
 * @param label what the picture shows, for those who cannot see it
 * @param summary one plain sentence: what to see in it
 * @param unit unit of the upright axis
 * @param line the points joined, as a path
 * @param need level of what is needed, below 0 for none
 * @param needText what is needed, with unit
 */
public record DateChart(
        String title,
        String label,
        Shown summary,
        String unit,
        String line,
        List<Point> points,
        List<Tick> levels,
        List<Tick> dates,
        double need,
        String needText) {

    /** Width of the box. */
    public static final int WIDTH = 640;
    /** Height of the box. */
    public static final int HEIGHT = 260;
    /** Left edge of the plot. */
    public static final int LEFT = 64;
    /** Right edge of the plot. */
    public static final int RIGHT = 620;
    /** Upper edge of the plot. */
    public static final int TOP = 34;
    /** Lower edge of the plot. */
    public static final int BOTTOM = 224;

    private static final double APART = 300;

    /** Where letters are large the dates in between are left out, and the last one too where it would touch the first. */
    public String place(Tick date) {
        Tick first = dates.get(0);
        Tick last = dates.get(dates.size() - 1);
        return date.equals(first) ? "first" : date.equals(last) && last.at() - first.at() >= APART ? "last" : "between";
    }

    /** One run. */
    public record Point(double x, double y, String state, String text) {}

    /** One mark on an axis. */
    public record Tick(double at, String text) {}
}
