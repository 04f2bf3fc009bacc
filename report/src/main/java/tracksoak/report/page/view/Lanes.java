package tracksoak.report.page.view;

import java.util.List;
import java.util.Locale;

/**
 * What happened when, in lanes: time across, one lane above the other.
 *
 * @param caption what is drawn
 * @param summary the same in one sentence, for those who do not see it
 * @param lanes their names, the lowest first
 * @param seconds how long the whole width is, in s
 * @param marks what happened
 */
public record Lanes(String caption, Shown summary, List<Shown> lanes, double seconds, List<Mark> marks)
        implements Block {

    /** Height of a lane, in units of the drawing. */
    public static final int LANE = 16;

    /** Width of the drawing. */
    public static final int WIDTH = 800;

    public Lanes {
        lanes = List.copyOf(lanes);
        marks = List.copyOf(marks);
    }

    /**
     * Something that happened.
     *
     * @param lane its lane from 0; −1 for the whole height
     * @param style {@code audio}, {@code header}, {@code table}, {@code flush} or {@code stop}
     * @param fromS when it began, in s from the left
     * @param lengthS how long it took, in s
     */
    public record Mark(int lane, String style, double fromS, double lengthS) {}

    /** Height of the drawing. */
    public int height() {
        return LANE * Math.max(1, lanes.size());
    }

    /** Left edge of a mark. */
    public String x(Mark mark) {
        return number(mark.fromS() / seconds * WIDTH);
    }

    /** Width of a mark: never so small that it is not seen. */
    public String width(Mark mark) {
        double left = mark.fromS() / seconds * WIDTH;
        return number(Math.max(2, Math.min(mark.lengthS() / seconds * WIDTH, WIDTH - left)));
    }

    /** Upper edge of a mark. */
    public int y(Mark mark) {
        return mark.lane() < 0 ? 0 : LANE * (lanes.size() - 1 - mark.lane()) + 2;
    }

    /** Height of a mark. */
    public int tall(Mark mark) {
        return mark.lane() < 0 ? height() : LANE - 4;
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.1f", value);
    }
}
