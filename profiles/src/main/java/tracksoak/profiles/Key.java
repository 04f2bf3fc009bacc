package tracksoak.profiles;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The keys of a session profile, each said in one place: how it is written, what it may hold, an example that is right,
 * where a session has it, and the option that gives it for one run.
 */
@SuppressWarnings("ImmutableEnumChecker") // its functions hold no state
public enum Key implements Keyed {
    NAME(new KeySpec<>("name", Form.TEXT)
            .allows("small letters a-z, digits and single hyphens, 1 to 48 characters")
            .example("name = \"our-band\"")
            .in(Session::name, Session.Builder::name)),
    TITLE(new KeySpec<>("title", Form.TEXT)
            .allows("one line of 1 to 120 characters")
            .example("title = \"Our band, 32 tracks\"")
            .in(Session::title, Session.Builder::title)),
    ABOUT(new KeySpec<>("about", Form.TEXT)
            .allows("one line of up to 800 characters")
            .example("about = \"\"")
            .in(Session::about, Session.Builder::about)),
    KIND(new KeySpec<>("kind", Form.word(SessionKind.class))
            .allows("\"recording\", \"playback\", \"mixdown\", \"archive\"")
            .example("kind = \"recording\"")
            .in(Session::kind, Session.Builder::kind)),
    LENGTH(new KeySpec<>("length", Form.LENGTH)
            .allows("\"1 s\" to \"24 h\"")
            .between(1, 86_400, "s")
            .example("length = \"3 h\"")
            .in(Session::lengthS, Session.Builder::lengthS)
            .option(
                    "--length",
                    "TIME",
                    "Length of the session: 45min, 2h, 1h30min. It counts for the room, not for the run's own time.")),
    LAYOUT(new KeySpec<>("layout", Form.word(FileLayout.class))
            .allows("\"file-per-track\", \"interleaved\"")
            .example("layout = \"file-per-track\"")
            .in(Session::layout, Session.Builder::layout)
            .option("--layout", "LAYOUT", "How tracks share files: " + Option.WORDS + ".")),
    CHUNK(new KeySpec<>("chunk", Form.SIZE)
            .allows("4 KiB to 16 MiB, a multiple of 4 KiB")
            .between(4096, 16L << 20, "B")
            .example("chunk = \"64 KiB\"")
            .in(Session::chunkBytes, (session, bytes) -> session.chunkBytes(bytes.intValue()))
            .option("--chunk", "SIZE", "The piece of one stream written at once: 64KiB.")),
    ARRIVAL(new KeySpec<>("arrival", Form.word(Arrival.class))
            .allows("\"burst\", \"staggered\"")
            .example("arrival = \"burst\"")
            .in(Session::arrival, Session.Builder::arrival)
            .option(
                    "--arrival",
                    "HOW",
                    "When chunks fall due: " + Option.WORDS + " (burst: all tracks at once, the hard case).")),
    WRITERS(new KeySpec<>("writers", Form.WHOLE)
            .between(1, 64, "writers")
            .example("writers = 1")
            .in(Session::writers, (session, writers) -> session.writers(writers.intValue()))
            .option("--writers", "N", "Writes in flight at once.")),
    FLUSH(new KeySpec<>("flush_s", Form.SECONDS)
            .between(0, 3600, "s, 0 for no flush before the end")
            .example("flush_s = 10")
            .in(Session::flushS, Session.Builder::flushS)
            .option("--flush", "TIME", "Time between two flushes of a file: 10s; 0s for none before the end.")),
    HEADER(new KeySpec<>("header_s", Form.SECONDS)
            .between(0, 3600, "s, 0 for at the end of a file only")
            .example("header_s = 10")
            .in(Session::headerS, Session.Builder::headerS)
            .usually(0.0)
            .option("--header", "TIME", "Time between two headers written to a file: 10s; 0s for at its end only.")),
    SPACE_IN_ADVANCE(new KeySpec<>("space_in_advance", Form.SIZE)
            .allows("0 B to 16 GiB, a multiple of 4 KiB; 0 B for none")
            .between(0, 16L << 30, "B")
            .example("space_in_advance = \"64 MiB\"")
            .in(Session::spaceInAdvanceBytes, Session.Builder::spaceInAdvanceBytes)
            .usually(0L)
            .option(
                    "--space-in-advance",
                    "SIZE",
                    "Room a file is given ahead of what is written: 64MiB; 0B for none.")),
    BUFFER(new KeySpec<>("buffer_s", Form.SECONDS)
            .between(0.01, 600, "s")
            .example("buffer_s = 2")
            .in(Session::bufferS, Session.Builder::bufferS)
            .option(
                    "--buffer",
                    "TIME",
                    "What the recorder can hold per track: 2s, 750ms. Given here, it is no assumption any more.")),
    BUFFER_ASSUMED(new KeySpec<>("buffer_assumed", Form.FLAG)
            .allows("true, false")
            .example("buffer_assumed = true")
            .in(Session::bufferAssumed, Session.Builder::bufferAssumed)),
    FILE_LIMIT(new KeySpec<>("file_limit", Form.BYTES)
            .allows("1 MiB to 1024 TiB")
            .between(1L << 20, 1L << 50, "B")
            .example("file_limit = 4294967295")
            .in(Session::fileLimitBytes, Session.Builder::fileLimitBytes)
            .option("--file-limit", "SIZE", "Largest file before the recorder starts the next: 2GiB.")),
    FILE_SYSTEMS(new KeySpec<>("file_systems", Form.TEXTS)
            .allows("1 to 16 names, each once")
            .example("file_systems = [\"exfat\", \"fat32\"]")
            .in(Session::fileSystems, Session.Builder::fileSystems)
            .option("--file-systems", "TYPE", "File systems the recorder accepts: exfat,fat32.")),
    STALL_LIMIT(new KeySpec<>("stall_limit_ms", Form.MILLISECONDS)
            .between(1, 60_000, "ms")
            .example("stall_limit_ms = 250")
            .in(Session::stallLimitMs, Session.Builder::stallLimitMs)
            .option("--stall-limit", "TIME", "A wait for a finished chunk longer than this is a stall: 250ms.")),
    RISK(new KeySpec<>("risk", Form.SHARE)
            .between(0.001, 1, "shows that may lose audio: 0.01 is 1 in 100")
            .example("risk = 0.01")
            .in(Session::risk, Session.Builder::risk)
            .usually(Session.USUAL_RISK)
            .option("--risk", "SHARE", "Chance of losing audio in one show that is accepted: 0.01 is 1 in 100.")),
    VALID_DAYS(new KeySpec<>("valid_days", Form.WHOLE)
            .between(1, 3650, "days")
            .example("valid_days = 90")
            .in(Session::validDays, (session, days) -> session.validDays(days.intValue()))
            .usually((long) Session.USUAL_VALID_DAYS)),
    TRACKS(new KeySpec<>("tracks", Form.TABLE)
            .allows("1 to 64 groups")
            .example("[[tracks]] with count, sample_rate_hz and word_length below it")),
    MIX(new KeySpec<>("mix", Form.TABLE)
            .allows("1 to 64 groups in a mixdown, none elsewhere")
            .example("[[mix]] with count, sample_rate_hz and word_length")),
    MARGINS(new KeySpec<>("margins", Form.TABLE)
            .allows("one table")
            .example("[margins] with buffer, rate, port, playback, longest_stall_ms and close_ms")),
    COUNT(new KeySpec<>("count", Form.WHOLE)
            .between(1, 1024, "tracks")
            .example("count = 32")
            .option("--tracks", "N", "Number of tracks, for a session with one kind of track.")),
    SAMPLE_RATE(new KeySpec<>("sample_rate_hz", Form.HERTZ)
            .between(8_000, 384_000, "Hz")
            .example("sample_rate_hz = 48000")
            .option("--sample-rate", "RATE", "Sample rate of every track: 44.1kHz, 48kHz, 96kHz.")),
    WORD_LENGTH(new KeySpec<>("word_length", Form.word(SampleFormat.class))
            .allows("\"16-bit\", \"24-bit\", \"32-bit\", \"32-bit float\"")
            .example("word_length = \"24-bit\"")
            .option("--word-length", "BITS", "Word length of every track: " + Option.WORDS + ".")),
    MARGIN_BUFFER(new KeySpec<>("buffer", Form.FACTOR)
            .between(1, 100, "×")
            .example("buffer = 1.25")
            .in(session -> session.margins().buffer(), Session.Builder::marginBuffer)
            .option("--buffer-margin", "FACTOR", "Buffer / peak backlog asked: 1.25.")),
    MARGIN_RATE(new KeySpec<>("rate", Form.FACTOR)
            .between(1, 100, "×")
            .example("rate = 1.5")
            .in(session -> session.margins().rate(), Session.Builder::marginRate)
            .option("--rate-margin", "FACTOR", "Write rate / demand asked: 1.5.")),
    MARGIN_PORT(new KeySpec<>("port", Form.FACTOR)
            .between(1, 100, "×")
            .example("port = 2.0")
            .in(session -> session.margins().port(), Session.Builder::marginPort)
            .option("--port-margin", "FACTOR", "Link speed / demand asked: 2.")),
    MARGIN_PLAYBACK(new KeySpec<>("playback", Form.FACTOR)
            .between(1, 100, "×")
            .example("playback = 1.25")
            .in(session -> session.margins().playback(), Session.Builder::marginPlayback)
            .option("--playback-margin", "FACTOR", "Read-ahead / peak shortfall asked: 1.25.")),
    LONGEST_STALL(
            new KeySpec<>("longest_stall_ms", Form.MILLISECONDS)
                    .between(0, 600_000, "ms, 0 for what follows from the buffer")
                    .example("longest_stall_ms = 1144")
                    .in(Session::ownLongestStallMs, Session.Builder::longestStallMs)
                    .usually(0L)
                    .option(
                            "--longest-stall",
                            "TIME",
                            "Longest stall allowed: 1144ms; usually as long as the buffer holds with its margin, beside one chunk.")),
    CLOSE(new KeySpec<>("close_ms", Form.MILLISECONDS)
            .between(1, 3_600_000, "ms")
            .example("close_ms = 15000")
            .in(session -> session.margins().closeMs(), Session.Builder::closeMs)
            .option("--close-time", "TIME", "Longest time allowed from stop to safe to unplug: 15s."));

    /** The keys of one group of tracks; they are looked for in every group. */
    static final List<Key> OF_GROUP = List.of(COUNT, SAMPLE_RATE, WORD_LENGTH);

    static final long CHUNK_MIN_BYTES = 4096;
    static final int GROUPS_MAX = 64;
    static final int TRACKS_MAX = 1024;

    /**
     * The option that gives a key for one run.
     *
     * @param name with its hyphens
     * @param label what stands for its value
     * @param description one or two sentences, which may hold {@link #WORDS}
     */
    public record Option(String name, String label, String description) {
        /** Stands in a description for the list of the words allowed; the command line puts them in. */
        public static final String WORDS = "${COMPLETION-CANDIDATES}";
    }

    /** Not changed once it is here. */
    private final KeySpec<?> spec;

    Key(KeySpec<?> spec) {
        this.spec = spec;
    }

    @Override
    public String toml() {
        return spec.toml;
    }

    /** As named in a message, with the table it stands in. */
    public String path() {
        return isMargin() ? MARGINS.spec.toml + "." + spec.toml : spec.toml;
    }

    /** What kind of value it has. */
    public Form<?> form() {
        return spec.form;
    }

    /** The option that gives it for one run, if there is one. */
    public Optional<Option> option() {
        return Optional.ofNullable(spec.option);
    }

    /** In a sentence for people, without its unit: {@code stall limit}. */
    public String label() {
        return spec.toml.replaceFirst("_(s|ms|hz)$", "").replace('_', ' ');
    }

    @Override
    public String allowed() {
        return spec.allowed;
    }

    @Override
    public String example() {
        return spec.example;
    }

    @Nullable
    Object usual() {
        return spec.usual;
    }

    boolean isMargin() {
        return compareTo(MARGIN_BUFFER) >= 0;
    }

    boolean isOfGroup() {
        return this == COUNT || this == SAMPLE_RATE || this == WORD_LENGTH;
    }

    /** Whether a session has one value of it: not the tables, and not what every group of tracks has. */
    boolean isOfSession() {
        return spec.get != null;
    }

    /** The keys a session has one value of. */
    static List<Key> ofSession() {
        return Arrays.stream(values()).filter(Key::isOfSession).toList();
    }

    /** Its value in a session. */
    Object of(Session session) {
        if (spec.get == null) {
            throw new IllegalStateException("a session has no one value of " + spec.toml);
        }
        return spec.get.apply(session);
    }

    /** Its value in a session, in words, with its unit. */
    public String shown(Session session) {
        return spec.form.words(of(session));
    }

    void put(Session.Builder session, Object value) {
        if (spec.put == null) {
            throw new IllegalStateException("a session has no one value of " + spec.toml);
        }
        spec.put.accept(session, value);
    }

    /** What is wrong with a number under this key, if anything. */
    Optional<String> outOfRange(double value) {
        if (!Double.isFinite(value)) {
            return Optional.of("is not a number that can be used");
        }
        if (value < spec.min) {
            return Optional.of("is too small");
        }
        return value > spec.max ? Optional.of("is too large") : Optional.empty();
    }
}
