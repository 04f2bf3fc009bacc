package tracksoak.report.page.chart;

import java.util.List;

/**
 * What the page's script draws: plain numbers, no colours.
 *
 * @param id id of the element to draw in
 * @param xKind scale of the level axis: {@code time} in s; {@code bytes} in GB; {@code date} in
 *     days since 1970; "nines" is 1 ÷ (1 − share), log; {@code every} is once in so many s, log; {@code tracks};
 *     {@code khz}
 * @param yUnit unit of the upright axis
 * @param yLog whether the upright axis is logarithmic
 * @param x rising
 * @param lines curves over {@code x}
 * @param levels level lines
 * @param uprights upright lines
 * @param marks single marks
 */
public record ChartData(
        String id,
        String xKind,
        String yUnit,
        boolean yLog,
        List<Double> x,
        List<Line> lines,
        List<Level> levels,
        List<Upright> uprights,
        List<Mark> marks) {

    /** Most points of a curve. */
    public static final int MOST_POINTS = 2000;

    /** A curve: one value per entry of {@code x}. */
    public record Line(String style, String text, List<Double> y) {}

    /** A level line with its text written on it. */
    public record Level(String style, String text, double y) {}

    /** An upright line with its text written beside it. */
    public record Upright(String style, String text, double x) {}

    /** A mark. */
    public record Mark(String style, double x, double y) {}
}
