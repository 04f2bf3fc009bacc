package tracksoak.profiles;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Inert;

@Isolated("sets the locale of the whole process")
class SessionReaderTest {
    private static final String GOOD =
            SessionToml.write(SessionCatalog.shipped().find("band-32"));
    private final Locale before = Locale.getDefault();

    @TempDir
    Path folder;

    @AfterEach
    void putTheLocaleBack() {
        Locale.setDefault(before);
    }

    @Test
    void aProfileMayLeaveOutHowLongAPassCounts() {
        assertThat(SessionReader.read(GOOD.replaceFirst("(?m)^valid_days = .*\\n", ""), "band.toml"))
                .returns(90, Session::validDays)
                .isEqualTo(SessionReader.read(GOOD, "band.toml"));
    }

    @Test
    void takesEveryValueAsItStands() throws IOException {
        String toml = """
                name = "spring-tour"
                title = "Spring tour"
                about = "Two groups"
                kind = "mixdown"
                length = "1 h 30 min 5 s"
                layout = "interleaved"
                chunk = 131072
                arrival = "staggered"
                writers = 2
                flush_s = 0
                buffer_s = 1.5
                buffer_assumed = false
                file_limit = "2 GiB"
                file_systems = ["xfs", "ext4"]
                stall_limit_ms = 300
                valid_days = 30
                tracks = [
                  { count = 24, sample_rate_hz = 44100, word_length = "16-bit" },
                  { count = 2, sample_rate_hz = 192000, word_length = "32-bit" },
                ]
                [[mix]]
                count = 2
                sample_rate_hz = 48000
                word_length = "32-bit float"
                [margins]
                buffer = 2
                rate = 1.25
                port = 3.5
                playback = 1
                longest_stall_ms = 900
                close_ms = 20000
                """;
        Path file = Files.writeString(folder.resolve("tour.toml"), toml);

        assertThat(SessionReader.read(file))
                .isEqualTo(Session.builder()
                        .name("spring-tour")
                        .title("Spring tour")
                        .about("Two groups")
                        .kind(SessionKind.MIXDOWN)
                        .groups(List.of(
                                new TrackGroup(24, 44_100, SampleFormat.PCM_16),
                                new TrackGroup(2, 192_000, SampleFormat.PCM_32)))
                        .mix(List.of(new TrackGroup(2, 48_000, SampleFormat.FLOAT_32)))
                        .lengthS(5_405)
                        .layout(FileLayout.INTERLEAVED)
                        .chunkBytes(131_072)
                        .arrival(Arrival.STAGGERED)
                        .writers(2)
                        .flushS(0)
                        .bufferS(1.5)
                        .bufferAssumed(false)
                        .fileLimitBytes(2L << 30)
                        .fileSystems(List.of("xfs", "ext4"))
                        .stallLimitMs(300)
                        .validDays(30)
                        .margins(new Margins(2, 1.25, 3.5, 1, 900, 20_000))
                        .build());
    }

    /** Numbers in the key's own unit, or any amount with its unit as the command line takes it. */
    @Test
    void takesAmountsWithTheirUnits() {
        String written = GOOD.replaceFirst("(?m)^length = .*$", "length = \"3h\"")
                .replaceFirst("(?m)^chunk = .*$", "chunk = \"64KiB\"")
                .replaceFirst("(?m)^flush_s = .*$", "flush_s = \"10s\"")
                .replaceFirst("(?m)^buffer_s = .*$", "buffer_s = \"2000 ms\"")
                .replaceFirst("(?m)^stall_limit_ms = .*$", "stall_limit_ms = \"0.25 s\"")
                .replaceFirst("(?m)^sample_rate_hz = .*$", "sample_rate_hz = \"48 kHz\"")
                .replaceFirst("(?m)^longest_stall_ms = .*$", "longest_stall_ms = \"1s144ms\"")
                .replaceFirst("(?m)^close_ms = .*$", "close_ms = \"15 s\"");
        assertThat(written).contains("10s", "2000 ms", "0.25 s", "48 kHz", "1s144ms", "15 s");
        assertThat(SessionReader.read(written, "band.toml")).isEqualTo(SessionReader.read(GOOD, "band.toml"));
    }

    @Test
    void theLongestStallFollowsFromTheBufferUnlessItIsSaid() {
        String left = GOOD.replaceFirst("(?m)^longest_stall_ms = .*\\n", "");
        // 2 s ÷ 1.25 less a chunk of 65,536 B at 144,000 B/s
        assertThat(SessionReader.read(left, "band.toml").margins().longestStallMs())
                .isEqualTo(1600 - 456);
        Session larger = SessionOverrides.none().with(Key.BUFFER, 4.0).applyTo(SessionReader.read(left, "band.toml"));
        assertThat(larger.margins().longestStallMs()).isEqualTo(3200 - 456);
        Session own = SessionReader.read(left.replace("close_ms", "longest_stall_ms = 900\nclose_ms"), "band.toml");
        assertThat(SessionOverrides.none()
                        .with(Key.BUFFER, 4.0)
                        .applyTo(own)
                        .margins()
                        .longestStallMs())
                .isEqualTo(900);
    }

    @Test
    void oneShowInAHundredIsRiskedUnlessItIsSaid() {
        assertThat(SessionReader.read(GOOD.replaceFirst("(?m)^risk = .*\\n", ""), "band.toml")
                        .risk())
                .isEqualTo(0.01);
        assertThat(SessionReader.read("risk = 0.1\n" + GOOD.replaceFirst("(?m)^risk = .*\\n", ""), "band.toml")
                        .risk())
                .isEqualTo(0.1);
    }

    /** Each line is changed on its own; the error must name it, its value and its range. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\'',
            value = {
                "name = | name = \"Our Band\" | 1 to 48 characters",
                "name = | name = \"-band\" | 1 to 48 characters",
                "title = | title = \"\" | is empty",
                "title = | title = \"\\u202Eevil\" | cannot be shown",
                "kind = | kind = \"record\" | did you mean \"recording\"?",
                "length = | length = 180 | text with its unit",
                "length = | length = \"25 h\" | is too large; allowed: \"1 s\" to \"24 h\"",
                "length = | length = \"0 s\" | is too small",
                "length = | length = \"90.5 s\" | is not a whole number of seconds; allowed",
                "length = | length = \"250ms\" | is not a whole number of seconds; allowed",
                "flush_s = | flush_s = \"10\" | is no length; write numbers and units (h, min, s, ms)",
                "flush_s = | flush_s = true | a number",
                "buffer_s = | buffer_s = \"9 ms\" | is too small; allowed: 0.01 to 600 s",
                "stall_limit_ms = | stall_limit_ms = \"0.5 ms\" | is not a whole number of ms",
                "stall_limit_ms = | stall_limit_ms = \"2 min\" | is too large; allowed: 1 to 60000 ms",
                "sample_rate_hz = | sample_rate_hz = \"48\" | is no sample rate; write a number and a unit",
                "sample_rate_hz = | sample_rate_hz = \"7 kHz\" | is too small; allowed: 8000 to 384000 Hz",
                "length = | length = \"3 min 2 h\" | the larger first",
                "layout = | layout = \"one-file\" | \"interleaved\"",
                "chunk = | chunk = \"2 KiB\" | is too small; allowed: 4 KiB to 16 MiB",
                "chunk = | chunk = 65537 | no multiple of 4 KiB",
                "chunk = | chunk = \"64\" | is no size",
                "chunk = | chunk = \"99999999 TiB\" | smaller unit",
                "writers = | writers = 0 | is too small; allowed: 1 to 64 writers",
                "writers = | writers = 1.5 | whole number",
                "writers = | writers = \"1\" | without quotes",
                "flush_s = | flush_s = -1 | is too small; allowed: 0 to 3600 s",
                "flush_s = | flush_s = nan | not a number",
                "flush_s = | flush_s = inf | not a number",
                "buffer_s = | buffer_s = 0 | allowed: 0.01 to 600 s",
                "buffer_assumed = | buffer_assumed = \"yes\" | true or false",
                "file_limit = | file_limit = 1000 | is too small; allowed: 1 MiB to 1024 TiB",
                "file_systems = | file_systems = [] | names 0 file systems",
                "file_systems = | file_systems = [\"exfat\", \"exfat\"] | twice",
                "file_systems = | file_systems = [\"fat\"] | did you mean \"fat32\"?",
                "file_systems = | file_systems = [7] | a list of texts",
                "stall_limit_ms = | stall_limit_ms = 60001 | is too large; allowed: 1 to 60000 ms",
                "risk = | risk = 0 | is too small; allowed: 0.001 to 1 shows that may lose audio",
                "risk = | risk = 1.5 | is too large",
                "valid_days = | valid_days = 0 | is too small; allowed: 1 to 3650 days",
                "valid_days = | valid_days = 3651 | is too large; allowed: 1 to 3650 days",
                "valid_days = | valid_days = \"90\" | a whole number",
                "count = | count = 0 | is too small; allowed: 1 to 1024 tracks",
                "sample_rate_hz = | sample_rate_hz = 48 | allowed: 8000 to 384000 Hz",
                "word_length = | word_length = \"20-bit\" | \"24-bit\"",
                "rate = | rate = 0.99 | is too small; allowed: 1 to 100 ×",
                "close_ms = | close_ms = 2024-01-01 | whole number",
            })
    void namesLineValueAndRange(String line, String bad, String expected) {
        int number = lineOf(line);
        String message =
                messageOf(GOOD.replaceFirst("(?m)^" + line + ".*$", java.util.regex.Matcher.quoteReplacement(bad)));
        assertThat(message)
                .startsWith("band.toml:" + number + ": ")
                .contains(expected)
                .contains("; do: ");
        assertThat(message.lines()).hasSize(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '\'',
            value = {
                "chunk = \"64 KiB\" | chunk = \"1 MiB\" | chunk 1048576 B of the slowest stream is 7.282 s > half of buffer_s 2",
                "flush_s = 10 | flush_s = 0.2 | flush_s 0.2 < 0.455 s",
                "writers = 1 | writers = 33 | writers 33 > 32",
                "file_limit = 4294967295 | file_limit = 4294967296 | file_limit 4294967296 B is more than FAT32 can hold",
                "chunk = \"64 KiB\" | chunk = \"16 MiB\" | chunk 16777216 B",
                "stall_limit_ms = 250 | stall_limit_ms = 1251 | longest_stall_ms 1144 < stall_limit_ms 1251",
                "kind = \"recording\" | kind = \"mixdown\" | there is no [[mix]]",
                "[margins] | [[mix]]\\ncount = 2\\nsample_rate_hz = 48000\\nword_length = \"24-bit\"\\n[margins] | [[mix]] in a session of kind recording",
                "count = 32 | count = 1000\\nsample_rate_hz = 96000\\nword_length = \"24-bit\"\\n[[tracks]]\\ncount = 25 | 1025 tracks",
            })
    void showsBothSidesOfAContradiction(String line, String bad, String expected) {
        assertThat(messageOf(GOOD.replace(line, bad.replace("\\n", "\n")))).contains(expected);
    }

    @Test
    void refusesGroupsThatCouldShareAnInterleavedFile() {
        String two = "count = 16\nsample_rate_hz = 48000\nword_length = \"24-bit\"\n\n[[tracks]]\ncount = 16";
        String toml = GOOD.replace("count = 32", two).replace("file-per-track\"", "interleaved\"");
        assertThat(messageOf(toml)).contains("two groups of 48000 Hz, 24-bit: would they share a file or not?");
    }

    @Test
    void listsEverythingAtOnceInTheOrderOfTheFile() {
        String toml = GOOD.replace("writers = 1", "writers = 0")
                .replace("count = 32", "count = 0")
                .replace("flush_s", "flsh_s")
                .replace("stall_limit_ms = 250", "stall_limit_ms = 5000");
        ProfileException thrown =
                catchThrowableOfType(ProfileException.class, () -> SessionReader.read(toml, "band.toml"));
        assertThat(thrown.errors())
                .extracting(ProfileError::key)
                .containsExactly("flush_s", "writers", "flsh_s", "tracks[0].count", "margins.longest_stall_ms");
        assertThat(thrown.errors()).isSortedAccordingTo((a, b) -> Integer.compare(a.line(), b.line()));
        assertThat(thrown.getMessage().lines()).hasSize(5).anyMatch(l -> l.contains("did you mean flush_s?"));
    }

    @Test
    void missesEveryKeyOfAnEmptyFile() {
        ProfileException thrown = catchThrowableOfType(ProfileException.class, () -> SessionReader.read("", "x"));
        assertThat(thrown.errors())
                .extracting(ProfileError::key)
                .containsExactlyInAnyOrder(
                        "name",
                        "title",
                        "about",
                        "kind",
                        "length",
                        "layout",
                        "chunk",
                        "arrival",
                        "writers",
                        "flush_s",
                        "buffer_s",
                        "buffer_assumed",
                        "file_limit",
                        "file_systems",
                        "stall_limit_ms",
                        "tracks",
                        "margins");
        assertThat(thrown.errors()).allMatch(e -> e.problem().contains("nothing is guessed"));
    }

    @Test
    void listsSyntaxErrorsWithoutCallingTheRestMissing() {
        String message = messageOf("name = \"x\ntitle = = 3\nwriters = 0\n");
        assertThat(message).contains("band.toml:1: is not TOML here").contains("band.toml:2: is not TOML here");
        assertThat(message).contains("band.toml:3: writers = 0").doesNotContain("missing");
    }

    /** Turkish has a dotless i, German a decimal comma, Egyptian Arabic digits of its own. */
    @ParameterizedTest
    @ValueSource(strings = {"tr-TR", "de-DE", "ar-EG"})
    void saysTheSameInEveryLocale(String locale) {
        String toml = GOOD.replace("chunk = \"64 KiB\"", "chunk = \"1 MiB\"").replace("exfat", "EXFAT");
        String expected = messageOf(toml);
        Locale.setDefault(Locale.forLanguageTag(locale));
        assertThat(messageOf(toml)).isEqualTo(expected).contains("7.282 s").contains("did you mean \"exfat\"?");
    }

    @Test
    void readsWindowsTextWithAByteOrderMark() {
        String windows = "\uFEFF" + GOOD.replace("\n", "\r\n");
        assertThat(SessionReader.read(windows.getBytes(UTF_8), "band.toml").name())
                .isEqualTo("band-32");
    }

    @Test
    void saysWhereTextIsNotUtf8() {
        byte[] latin =
                GOOD.replace("32 tracks of a band", "32 pistes à la fête").getBytes(ISO_8859_1);
        assertThatThrownBy(() -> SessionReader.read(latin, "band.toml"))
                .isInstanceOf(ProfileException.class)
                .hasMessage("band.toml:2: is not UTF-8 text; do: save the file as UTF-8 text in your editor");
        assertThatThrownBy(() -> SessionReader.read(GOOD.getBytes(UTF_16), "band.toml"))
                .isInstanceOf(ProfileException.class)
                .hasMessageContaining("band.toml:1: is not UTF-8 text");
    }

    @ParameterizedTest
    @ValueSource(ints = {400, 60_000})
    void turnsAwayTextMadeToExhaustAParser(int depth) {
        assertThat(messageOf("a = " + "[".repeat(Math.min(depth, 4_000)))).contains("opens more than 200 brackets");
        assertThat(messageOf("[\n".repeat(depth / 2 + 20))).contains("opens more than 200 brackets");
        assertThat(messageOf("a" + ".a".repeat(2_000) + " = 1")).contains("is not TOML here");
        assertThat(messageOf("#" + "x".repeat(5_000))).contains("line of more than 4096 characters");
    }

    @Test
    void readsNoMoreThanASessionProfileCanHold() throws IOException {
        Path file = folder.resolve("big.toml");
        Files.write(file, new byte[SessionReader.MAX_FILE_BYTES + 1]);
        assertThatThrownBy(() -> SessionReader.read(file)).hasMessageContaining("is larger than 64 KiB");
        assertThatThrownBy(() -> SessionReader.read(folder)).hasMessageContaining("is no regular file");
        assertThatThrownBy(() -> SessionReader.read(folder.resolve("none.toml")))
                .isInstanceOf(ProfileException.class)
                .hasMessageContaining("none.toml: does not exist");
    }

    @Test
    void showsNoMoreThanAHundredErrorsAndNoControlCharacter() {
        StringBuilder toml = new StringBuilder();
        for (int i = 0; i < 500; i++) {
            toml.append("\"\\u001b]31m")
                    .append(i)
                    .append("\" = \"\\u202e")
                    .append("x".repeat(300))
                    .append("\"\n");
        }
        ProfileException thrown =
                catchThrowableOfType(ProfileException.class, () -> SessionReader.read(toml.toString(), "x.toml"));
        assertThat(thrown.errors()).hasSize(101);
        assertThat(thrown.getMessage()).contains("has 417 more errors");
        assertThat(thrown.getMessage().replace("\n", "").codePoints()).noneMatch(Inert::mustBeEscaped);
        assertThat(thrown.getMessage().lines()).allMatch(l -> l.length() < 2_000);
    }

    private static String messageOf(String toml) {
        ProfileException thrown =
                catchThrowableOfType(ProfileException.class, () -> SessionReader.read(toml, "band.toml"));
        assertThat(thrown).as(toml).isNotNull();
        return String.valueOf(thrown.getMessage());
    }

    private static int lineOf(String start) {
        List<String> lines = GOOD.lines().toList();
        for (int i = 0; i < lines.size(); i++) {
            if (lines.get(i).startsWith(start)) {
                return i + 1;
            }
        }
        throw new AssertionError("no line starts with " + start);
    }
}
