package tracksoak.profiles.base;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** Names of constants as people and files write them: {@code FILE_PER_TRACK} as {@code file-per-track}. Stateless. */
public final class KebabCase {

    private KebabCase() {}

    /** The name of a constant in lower case with hyphens. */
    public static String of(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** The constant of that name, exactly as {@link #of} writes it. */
    public static <E extends Enum<E>> Optional<E> read(Class<E> type, String name) {
        return Arrays.stream(type.getEnumConstants())
                .filter(value -> of(value).equals(name))
                .findFirst();
    }
}
