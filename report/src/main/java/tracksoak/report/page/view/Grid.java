package tracksoak.report.page.view;

import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * A table with a head. The first column names the row; the others hold figures.
 *
 * @param caption what the table shows
 * @param heads one per column
 * @param rows cells, each row as long as {@code heads}
 * @param note what was left out, empty if nothing was
 */
public record Grid(String caption, List<String> heads, List<List<Shown>> rows, String note) implements Block {

    private static final Pattern FIGURE = Pattern.compile(
            "(?:[-–]|none|not measured|not known|unknown|gone|nothing|[-+]?\\d[\\d.,]*(?:[ \\u00a0]?\\S{1,7}){0,4})");

    public Grid {
        heads = List.copyOf(heads);
        rows = rows.stream().map(List::copyOf).toList();
        for (List<Shown> row : rows) {
            if (row.size() != heads.size()) {
                throw new IllegalArgumentException(
                        "a row of " + row.size() + " cells in a table of " + heads.size() + " columns: " + caption);
            }
        }
    }

    /** A table of which nothing was left out. */
    public Grid(String caption, List<String> heads, List<List<Shown>> rows) {
        this(caption, heads, rows, "");
    }

    /** {@code num} for a column of figures, which is set flush right; else null. */
    public @Nullable String style(int column) {
        return column > 0
                        && !rows.isEmpty()
                        && rows.stream()
                                .allMatch(row ->
                                        FIGURE.matcher(row.get(column).text()).matches())
                ? "num"
                : null;
    }

    /** A row of cells that may hold anything. */
    public static List<Shown> row(String... cells) {
        return List.of(cells).stream().map(Shown::of).toList();
    }
}
