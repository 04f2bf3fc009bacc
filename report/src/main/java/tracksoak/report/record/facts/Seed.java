package tracksoak.report.record.facts;

/**
 * Seed of a payload. In JSON it is text: a number beyond 2^53 is not the same number to every reader.
 *
 * @param value any
 */
public record Seed(long value) {

    @Override
    public String toString() {
        return Long.toString(value);
    }
}
