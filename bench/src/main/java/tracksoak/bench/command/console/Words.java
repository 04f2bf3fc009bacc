package tracksoak.bench.command.console;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;

/** Words for people: outside text made harmless, enum names as the trade writes them. */
public final class Words {

    private Words() {}

    /** The text on one line, without anything a terminal could obey. Meant for whole sentences: it is never cut. */
    public static String plain(String text) {
        return Inert.whole(text);
    }

    /** Several lines, each made {@link #plain}. */
    static String plainLines(String text) {
        return text.lines().map(Words::plain).collect(Collectors.joining(System.lineSeparator()));
    }

    /** A value from outside in quotes, cut if it is long. */
    public static String quoted(Object value) {
        return '"' + Inert.text(value.toString()) + '"';
    }

    /** {@code FILE_PER_TRACK} as {@code file-per-track}. */
    public static String of(Enum<?> value) {
        return KebabCase.of(value);
    }

    /** {@code 1 file}, {@code 2 files}. */
    public static String count(long n, String one) {
        return String.format(Locale.ROOT, "%,d %s%s", n, one, n == 1 ? "" : "s");
    }

    /** A number without needless zeros. */
    public static String number(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    /** {@code a, b and c}. */
    public static String list(List<String> items) {
        int last = items.size() - 1;
        return last <= 0
                ? String.join("", items)
                : String.join(", ", items.subList(0, last)) + " and " + items.get(last);
    }
}
