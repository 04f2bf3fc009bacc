package tracksoak.profiles;

/** A key of a file that people write: how it is spelled, what it may hold, and an example that is right. */
public interface Keyed {

    /** As written in its table. */
    String toml();

    /** What it may hold, with its unit. */
    String allowed();

    /** A line that is right. */
    String example();

    /** A key with these three. */
    static Keyed of(String toml, String allowed, String example) {
        return new Keyed() {
            @Override
            public String toml() {
                return toml;
            }

            @Override
            public String allowed() {
                return allowed;
            }

            @Override
            public String example() {
                return example;
            }
        };
    }
}
