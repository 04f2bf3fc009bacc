package tracksoak.profiles;

import java.util.function.BiConsumer;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Quantity;

/**
 * Says everything about one {@link Key}, piece by piece. Confined to one thread.
 *
 * @param <T> what its value is in Java
 */
final class KeySpec<T> {
    final String toml;
    final Form<T> form;
    double min = Double.NaN;
    double max = Double.NaN;
    String allowed = "";
    String example = "";

    @Nullable
    Function<Session, Object> get;

    @Nullable
    BiConsumer<Session.Builder, Object> put;

    @Nullable
    Object usual;

    Key.@Nullable Option option;

    /** A key as it is written in its table, and the kind of value it has. */
    KeySpec(String toml, Form<T> form) {
        this.toml = toml;
        this.form = form;
    }

    /** What it may hold, in words. */
    KeySpec<T> allows(String words) {
        allowed = words;
        return this;
    }

    /** Its range, both ends allowed. */
    KeySpec<T> between(double least, double most, String unit) {
        min = least;
        max = most;
        return allowed.isEmpty() ? allows(Quantity.plain(least) + " to " + Quantity.plain(most) + " " + unit) : this;
    }

    /** A line of a file that is right. */
    KeySpec<T> example(String line) {
        example = line;
        return this;
    }

    /** Where a session has it. */
    KeySpec<T> in(Function<Session, Object> getter, BiConsumer<Session.Builder, T> setter) {
        get = getter;
        put = (builder, value) -> setter.accept(builder, form.take(value));
        return this;
    }

    /** What it is where a file says nothing. */
    KeySpec<T> usually(T value) {
        usual = value;
        return this;
    }

    /** The option that gives it for one run. */
    KeySpec<T> option(String name, String label, String description) {
        option = new Key.Option(name, label, description);
        return this;
    }
}
