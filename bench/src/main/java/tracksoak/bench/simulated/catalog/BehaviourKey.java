package tracksoak.bench.simulated.catalog;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.simulated.figures.Limits;
import tracksoak.profiles.Keyed;
import tracksoak.profiles.KeyedTable;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Quantity;

/**
 * One figure of a behaviour as a drive file writes it. The unit is the end of the figure's name in the program, so {@code
 * slowBytesPerSecond} is written {@code slow = "14 MB/s"}.
 *
 * @param toml as written in its table
 * @param type of the figure in the program
 * @param unit how it is written
 */
record BehaviourKey(String toml, Class<?> type, Unit unit) implements Keyed {

    /** How a figure is written, told by the end of its name. */
    enum Unit {
        RATE("BytesPerSecond", "a rate with its unit, such as \"40 MB/s\"", "\"40 MB/s\""),
        SIZE("Bytes", "a size with its unit, such as \"4 GB\"", "\"4 GB\""),
        TIME("Ns", "a time with its unit, such as \"250 ms\"", "\"250 ms\""),
        SHARE("Permille", "a share, such as \"12.5 %\"", "\"12.5 %\""),
        PLAIN("", "a whole number", "10");

        private final String ending;
        private final String allowed;
        private final String example;

        Unit(String ending, String allowed, String example) {
            this.ending = ending;
            this.allowed = allowed;
            this.example = example;
        }

        private long read(String text) {
            boolean never = text.equals("never");
            return switch (this) {
                case RATE -> Quantity.bytesPerSecond(text);
                case SIZE -> never ? Limits.NEVER : Quantity.bytes(text);
                case TIME -> never ? Limits.NEVER : Quantity.nanoseconds(text);
                case SHARE -> Quantity.permille(text);
                case PLAIN -> throw new IllegalStateException("a plain number is no text");
            };
        }
    }

    static BehaviourKey of(RecordComponent component) {
        String name = component.getName();
        Unit unit = Arrays.stream(Unit.values())
                .filter(each -> name.endsWith(each.ending))
                .findFirst()
                .orElse(Unit.PLAIN);
        String bare = name.substring(0, name.length() - unit.ending.length());
        return new BehaviourKey(bare.replaceAll("(?=[A-Z])", "_").toLowerCase(Locale.ROOT), component.getType(), unit);
    }

    @Override
    public String allowed() {
        if (type == boolean.class) {
            return "true, false";
        }
        return type.isEnum() ? words() : type == double.class ? "a number" : unit.allowed;
    }

    @Override
    public String example() {
        String value = type == boolean.class
                ? "true"
                : type.isEnum() ? words().split(", ", 2)[0] : type == double.class ? "1.5" : unit.example;
        return toml + " = " + value;
    }

    /** The figure in this table as the behaviour takes it; null where it is missing or wrong, which is noted. */
    @Nullable
    Object read(KeyedTable table) {
        if (type == boolean.class) {
            return table.flag(this);
        }
        if (type == double.class) {
            return table.number(this);
        }
        if (type.isEnum()) {
            return word(table);
        }
        Long value = unit == Unit.PLAIN ? table.whole(this) : table.amount(this, unit::read);
        if (value == null || type == long.class) {
            return value;
        }
        // too large for the program is too large for every behaviour, so the nearest figure is refused as this one
        // would be
        return (int) Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, value));
    }

    private @Nullable Object word(KeyedTable table) {
        String asked = table.text(this);
        if (asked == null) {
            return null;
        }
        for (Object each : type.getEnumConstants()) {
            if (KebabCase.of((Enum<?>) each).equals(asked)) {
                return each;
            }
        }
        table.wrong(this, asked, "is none of the words", allowed(), "write one of them");
        return null;
    }

    private String words() {
        return Arrays.stream(type.getEnumConstants())
                .map(each -> "\"" + KebabCase.of((Enum<?>) each) + "\"")
                .collect(Collectors.joining(", "));
    }
}
