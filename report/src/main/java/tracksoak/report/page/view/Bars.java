package tracksoak.report.page.view;

import java.util.List;

/**
 * Parts of a whole, or parts each of one whole, each with a bar beside its figure.
 *
 * @param caption what the parts are of
 * @param partHead head of the column that names the parts
 * @param valueHead head of the column of figures
 * @param wholeHead what the whole is called
 * @param whole the whole, formatted
 */
public record Bars(String caption, String partHead, String valueHead, List<Bar> bars, String wholeHead, String whole)
        implements Block {

    public Bars {
        bars = List.copyOf(bars);
    }

    /**
     * One part.
     *
     * @param percent share of the whole, 0 and more, whole percents; the bar ends at 100
     */
    public record Bar(String label, String value, int percent) {

        /** Length of the bar, 0…100. */
        public int length() {
            return Math.min(100, percent);
        }
    }
}
