package tracksoak.report.page.view;

import java.util.List;

/**
 * A chart with all that stands in for it: a label, a summary, a key and a table.
 *
 * @param id id of the element, also its key in the data island
 * @param title heading above the chart
 * @param label what the picture shows, for those who cannot see it
 * @param summary one plain sentence: what to see in it
 * @param key one entry per kind of line or mark
 * @param table the same figures, thinned
 */
public record ChartView(String id, String title, String label, Shown summary, List<Key> key, Grid table)
        implements Block {

    public ChartView {
        key = List.copyOf(key);
    }

    /**
     * One entry of the key.
     *
     * @param style name of the line or mark as the style sheet and the script know it
     * @param mark true for a single mark, false for a line
     */
    public record Key(String style, boolean mark, String text) {}
}
