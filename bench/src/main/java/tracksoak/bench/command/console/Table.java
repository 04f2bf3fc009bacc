package tracksoak.bench.command.console;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import tracksoak.profiles.base.Inert;

/** Columns of text for people, two spaces apart. Cells come from anywhere: they are made harmless here. */
public final class Table {

    private static final int INDENT = 4;

    private final boolean[] right;
    private final List<String[]> rows = new ArrayList<>();

    /** A heading that begins with {@code >} has its column set flush right. */
    public Table(String... headings) {
        right = new boolean[headings.length];
        String[] plain = new String[headings.length];
        for (int i = 0; i < headings.length; i++) {
            right[i] = headings[i].startsWith(">");
            plain[i] = right[i] ? headings[i].substring(1) : headings[i];
        }
        rows.add(plain);
    }

    /** Adds a row of as many cells as there are headings. */
    public void row(String... cells) {
        rows.add(plain(cells));
    }

    /** Adds a row for each thing, as many cells as there are headings; of thousands, several are made at once. */
    public <T> void rows(List<T> things, Function<T, String[]> cells) {
        rows.addAll(
                things.parallelStream().map(thing -> plain(cells.apply(thing))).toList());
    }

    private String[] plain(String[] cells) {
        if (cells.length != right.length) {
            throw new IllegalArgumentException(cells.length + " cells for " + right.length + " columns");
        }
        String[] plain = new String[cells.length];
        for (int i = 0; i < cells.length; i++) {
            plain[i] = Inert.whole(cells[i]);
        }
        return plain;
    }

    /** Where its lines are too long for the window, the columns that do not fit stand on a line below, further in. */
    public void print(Console console) {
        int[] width = new int[right.length];
        for (String[] row : rows) {
            for (int i = 0; i < row.length; i++) {
                width[i] = Math.max(width[i], letters(row[i]));
            }
        }
        boolean[] below = below(width, console.columns());
        StringBuilder text = new StringBuilder();
        for (String[] row : rows) {
            int gap = 0;
            int begin = text.length();
            for (int i = 0; i < row.length; i++) {
                if (below[i]) {
                    text.append(System.lineSeparator());
                    gap = INDENT;
                }
                int spare = width[i] - letters(row[i]);
                gap += right[i] ? spare : 0;
                if (!row[i].isEmpty()) {
                    text.append(" ".repeat(gap)).append(row[i]);
                    gap = 0;
                }
                gap += (right[i] ? 0 : spare) + 2;
            }
            int end = text.length();
            while (end > begin && text.charAt(end - 1) <= ' ') {
                end--;
            }
            text.setLength(end);
            text.append(System.lineSeparator());
        }
        console.out().print(text);
    }

    /** Which columns begin a line. */
    private static boolean[] below(int[] width, int columns) {
        boolean[] below = new boolean[width.length];
        int at = width[0];
        for (int i = 1; i < width.length; i++) {
            at += 2 + width[i];
            below[i] = at > columns;
            at = below[i] ? INDENT + width[i] : at;
        }
        return below;
    }

    private static int letters(String cell) {
        return cell.codePointCount(0, cell.length());
    }
}
