package tracksoak.profiles;

import java.util.Optional;
import tracksoak.profiles.base.Quantity;

/** The keys of a session profile: how each is written, what it may hold, and an example that is right. */
enum Key {
    NAME("name", "small letters a-z, digits and single hyphens, 1 to 48 characters", "name = \"our-band\""),
    TITLE("title", "one line of 1 to 120 characters", "title = \"Our band, 32 tracks\""),
    ABOUT("about", "one line of up to 800 characters", "about = \"\""),
    KIND("kind", "\"recording\", \"playback\", \"mixdown\", \"archive\"", "kind = \"recording\""),
    LENGTH("length", "\"1 s\" to \"24 h\"", "length = \"3 h\""),
    LAYOUT("layout", "\"file-per-track\", \"interleaved\"", "layout = \"file-per-track\""),
    CHUNK("chunk", "4 KiB to 16 MiB, a multiple of 4 KiB", "chunk = \"64 KiB\""),
    ARRIVAL("arrival", "\"burst\", \"staggered\"", "arrival = \"burst\""),
    WRITERS("writers", 1, 64, "writers", "writers = 1"),
    FLUSH("flush_s", 0, 3600, "s, 0 for no flush before the end", "flush_s = 10"),
    BUFFER("buffer_s", 0.01, 600, "s", "buffer_s = 2"),
    BUFFER_ASSUMED("buffer_assumed", "true, false", "buffer_assumed = true"),
    FILE_LIMIT("file_limit", "1 MiB to 1024 TiB", "file_limit = 4294967295"),
    FILE_SYSTEMS("file_systems", "1 to 16 names, each once", "file_systems = [\"exfat\", \"fat32\"]"),
    STALL_LIMIT("stall_limit_ms", 1, 60_000, "ms", "stall_limit_ms = 250"),
    VALID_DAYS("valid_days", 1, 3650, "days", "valid_days = 90"),
    TRACKS("tracks", "1 to 64 groups", "[[tracks]] with count, sample_rate_hz and word_length below it"),
    MIX("mix", "1 to 64 groups in a mixdown, none elsewhere", "[[mix]] with count, sample_rate_hz and word_length"),
    MARGINS("margins", "one table", "[margins] with buffer, rate, port, playback, longest_stall_ms and close_ms"),
    COUNT("count", 1, 1024, "tracks", "count = 32"),
    SAMPLE_RATE("sample_rate_hz", 8_000, 384_000, "Hz", "sample_rate_hz = 48000"),
    WORD_LENGTH("word_length", "\"16-bit\", \"24-bit\", \"32-bit\", \"32-bit float\"", "word_length = \"24-bit\""),
    MARGIN_BUFFER("buffer", 1, 100, "×", "buffer = 1.25"),
    MARGIN_RATE("rate", 1, 100, "×", "rate = 1.5"),
    MARGIN_PORT("port", 1, 100, "×", "port = 2.0"),
    MARGIN_PLAYBACK("playback", 1, 100, "×", "playback = 1.25"),
    LONGEST_STALL("longest_stall_ms", 1, 600_000, "ms", "longest_stall_ms = 1250"),
    CLOSE("close_ms", 1, 3_600_000, "ms", "close_ms = 15000");

    static final long CHUNK_MIN_BYTES = 4096;
    static final long CHUNK_MAX_BYTES = 16L << 20;
    static final long FILE_LIMIT_MIN_BYTES = 1L << 20;
    static final long FILE_LIMIT_MAX_BYTES = 1L << 50;
    static final long LENGTH_MAX_S = 86_400;
    static final int GROUPS_MAX = 64;
    static final int TRACKS_MAX = 1024;

    private final String toml;
    private final double min;
    private final double max;
    private final String allowed;
    private final String example;

    Key(String toml, String allowed, String example) {
        this.toml = toml;
        this.min = Double.NaN;
        this.max = Double.NaN;
        this.allowed = allowed;
        this.example = example;
    }

    Key(String toml, double min, double max, String unit, String example) {
        this.toml = toml;
        this.min = min;
        this.max = max;
        this.allowed = Quantity.plain(min) + " to " + Quantity.plain(max) + " " + unit;
        this.example = example;
    }

    /** As written in its table. */
    String toml() {
        return toml;
    }

    /** As named in a message, with the table it stands in. */
    String path() {
        return isMargin() ? MARGINS.toml + "." + toml : toml;
    }

    String allowed() {
        return allowed;
    }

    String example() {
        return example;
    }

    boolean isMargin() {
        return compareTo(MARGIN_BUFFER) >= 0;
    }

    boolean isOfGroup() {
        return this == COUNT || this == SAMPLE_RATE || this == WORD_LENGTH;
    }

    /** What is wrong with a number under this key, if anything. */
    Optional<String> outOfRange(double value) {
        if (!Double.isFinite(value)) {
            return Optional.of("is not a number that can be used");
        }
        if (value < min) {
            return Optional.of("is too small");
        }
        return value > max ? Optional.of("is too large") : Optional.empty();
    }
}
