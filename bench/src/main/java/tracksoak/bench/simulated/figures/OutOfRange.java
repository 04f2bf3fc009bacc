package tracksoak.bench.simulated.figures;

import java.util.List;
import java.util.stream.Collectors;

/** Figures of a simulated drive that it cannot have: all of them, each with its key, the value and what is allowed. */
public final class OutOfRange extends IllegalArgumentException {

    private static final long serialVersionUID = 1L;

    /**
     * One figure.
     *
     * @param key as it is written in a drive file
     * @param value the value, with its unit
     * @param allowed what it may be, with its unit
     */
    public record Figure(String key, String value, String allowed) {}

    private final transient List<Figure> figures;

    OutOfRange(List<Figure> figures) {
        super(figures.stream()
                .map(each -> each.key() + " is " + each.value() + ", must be " + each.allowed())
                .collect(Collectors.joining("; ")));
        this.figures = List.copyOf(figures);
    }

    /** Each figure out of range, at least one. */
    public List<Figure> figures() {
        return figures;
    }
}
