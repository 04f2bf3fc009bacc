package tracksoak.report.page.view;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A table of label and value.
 *
 * @param caption what the facts are about
 */
public record Facts(String caption, List<Fact> rows) implements Block {

    public Facts {
        rows = List.copyOf(rows);
    }

    /** One row. */
    public record Fact(String label, Shown value) {}

    /** Starts a table. */
    public static Builder about(String caption) {
        return new Builder(caption);
    }

    /** Collects rows in order; one thread. */
    public static final class Builder {

        private final String caption;
        private final List<Fact> rows = new ArrayList<>();

        private Builder(String caption) {
            this.caption = caption;
        }

        /** Adds a row; null and blank values read {@code unknown}. */
        public Builder row(String label, @Nullable String value) {
            rows.add(new Fact(label, Shown.orUnknown(value)));
            return this;
        }

        /** Adds a row only if {@code wanted}. */
        public Builder rowIf(boolean wanted, String label, @Nullable String value) {
            return wanted ? row(label, value) : this;
        }

        /** The table. */
        public Facts build() {
            return new Facts(caption, rows);
        }
    }
}
