package tracksoak.bench.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import tracksoak.profiles.Key;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.TradeName;
import tracksoak.report.page.bench.SessionView;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.Option;
import tracksoak.report.roster.web.server.Form;

/**
 * A session as a form, and a filled-in form as the text of a session file: it is then read by the same rules as any other, so that
 * what is wrong is said in the same sentences.
 */
final class SessionForm {

    private static final int EMPTY_GROUPS = 1;
    private static final int MOST_GROUPS = 64;
    /** A key of a line of tracks, as it is called in files. */
    private static final Pattern ROW = Pattern.compile("(tracks|mix)\\[([0-9]{1,4})]\\.(\\w+)");

    /** Keys of more than one word; those of one are said in sentences as they are. */
    private static final Pattern KEY = Pattern.compile("\\b[a-z]+(_[a-z]+)+\\b");

    /** What to do in a file is of no use in a form. */
    private static final Pattern OF_FILES = Pattern.compile(" = |\\[\\[|for example");

    private static final Pattern PLAIN = Pattern.compile("[0-9][0-9_]{0,18}(\\.[0-9]{1,17})?|true|false");

    private record Entry(Key key, String label, Function<Session, String> value) {}

    private static final List<Entry> TOP = List.of(
            new Entry(Key.NAME, "Name", Session::name),
            new Entry(Key.TITLE, "Title", Session::title),
            new Entry(Key.ABOUT, "What it is for", Session::about),
            new Entry(Key.KIND, "Kind", session -> KebabCase.of(session.kind())),
            new Entry(Key.LENGTH, "Length", session -> length(session.lengthS())),
            new Entry(Key.LAYOUT, "Files", session -> KebabCase.of(session.layout())),
            new Entry(Key.CHUNK, "Chunk, the piece written at once", session -> size(session.chunkBytes())),
            new Entry(Key.ARRIVAL, "When chunks fall due", session -> KebabCase.of(session.arrival())),
            new Entry(Key.WRITERS, "Writes at once", session -> Integer.toString(session.writers())),
            new Entry(Key.FLUSH, "Flush every, in s", session -> Quantity.plain(session.flushS())),
            new Entry(
                    Key.HEADER,
                    "Header written anew every, in s; 0 for at the end only",
                    session -> Quantity.plain(session.headerS())),
            new Entry(
                    Key.SPACE_IN_ADVANCE,
                    "Room a file is given ahead of what is written",
                    session -> size(session.spaceInAdvanceBytes())),
            new Entry(Key.BUFFER, "Recorder's buffer, in s", session -> Quantity.plain(session.bufferS())),
            new Entry(
                    Key.BUFFER_ASSUMED, "Is the buffer a guess?", session -> Boolean.toString(session.bufferAssumed())),
            new Entry(Key.FILE_LIMIT, "Largest file", session -> size(session.fileLimitBytes())),
            new Entry(
                    Key.FILE_SYSTEMS,
                    "File systems the recorder accepts",
                    session -> TradeName.all(session.fileSystems(), ", ")),
            new Entry(
                    Key.STALL_LIMIT, "A stall is longer than, in ms", session -> Long.toString(session.stallLimitMs())),
            new Entry(
                    Key.RISK,
                    "Risk accepted: share of shows that may lose audio",
                    session -> Quantity.plain(session.risk())),
            new Entry(Key.VALID_DAYS, "A PASS counts for, in days", session -> Integer.toString(session.validDays())));

    private static final List<Entry> MARGINS = List.of(
            margin(
                    Key.MARGIN_BUFFER,
                    "Margin: buffer ÷ backlog",
                    session -> session.margins().buffer()),
            margin(
                    Key.MARGIN_RATE,
                    "Margin: rate ÷ demand",
                    session -> session.margins().rate()),
            margin(
                    Key.MARGIN_PORT,
                    "Margin: link ÷ demand",
                    session -> session.margins().port()),
            margin(
                    Key.MARGIN_PLAYBACK,
                    "Margin: read-ahead ÷ shortfall",
                    session -> session.margins().playback()),
            new Entry(
                    Key.LONGEST_STALL,
                    "Longest stall allowed, in ms; 0 for what follows from the buffer",
                    session -> Long.toString(session.ownLongestStallMs())),
            new Entry(
                    Key.CLOSE,
                    "From stop to safe to unplug, in ms",
                    session -> Long.toString(session.margins().closeMs())));

    private static final List<Entry> OF_GROUP = List.of(
            new Entry(Key.COUNT, "How many", session -> ""),
            new Entry(Key.SAMPLE_RATE, "Sample rate, in Hz", session -> ""),
            new Entry(Key.WORD_LENGTH, "Word length", session -> ""));

    /** What is to be filled in by everyone; all else is usual for most recorders. */
    private static final Set<Key> FIRST = Set.of(Key.NAME, Key.TITLE, Key.LENGTH, Key.BUFFER, Key.BUFFER_ASSUMED);

    private SessionForm() {}

    private static Entry margin(Key key, String label, Function<Session, Double> value) {
        return new Entry(key, label, session -> Quantity.plain(value.apply(session)));
    }

    /** What the form calls what an option of the command line gives; empty where it has no such field. */
    static Optional<String> labelOf(String option) {
        return Stream.concat(TOP.stream(), MARGINS.stream())
                .filter(entry -> entry.key()
                        .option()
                        .filter(said -> said.name().equals(option))
                        .isPresent())
                .map(Entry::label)
                .findFirst();
    }

    /** Where a filled-in value comes from: a session, or a form that was sent. */
    private interface Values {
        String of(String name, Entry entry);
    }

    static List<SessionView.Field> fields(Session session) {
        return fields((name, entry) -> entry.value().apply(session));
    }

    static List<SessionView.Field> fields(Form form) {
        return fields((name, entry) -> form.field(name));
    }

    private static List<SessionView.Field> fields(Values values) {
        return Stream.concat(TOP.stream(), MARGINS.stream())
                .map(entry -> field(name(entry), entry.label(), values.of(name(entry), entry), entry.key()))
                .toList();
    }

    private static String name(Entry entry) {
        return (MARGINS.contains(entry) ? "margins-" : "") + entry.key().toml();
    }

    private static SessionView.Field field(String name, String label, String value, Key key) {
        boolean first = FIRST.contains(key) || name.startsWith("tracks");
        return new SessionView.Field(name, label, Shown.of(value), inForm(key.allowed()), choices(value, key), first);
    }

    /** Where a key has few words for values, all of them and the one filled in. */
    private static List<Option> choices(String value, Key key) {
        boolean few = switch (key.form().kind()) {
            case WORD, FLAG -> true;
            default -> false;
        };
        if (!few) {
            return List.of();
        }
        List<String> words =
                new ArrayList<>(List.of(key.allowed().replace("\"", "").split(", ", -1)));
        if (!words.contains(value)) {
            words.add(0, value);
        }
        return words.stream()
                .map(word -> new Option(word, Shown.of(said(word)), word.equals(value)))
                .toList();
    }

    private static String said(String word) {
        return switch (word) {
            case "" -> "none";
            case "true" -> "yes";
            case "false" -> "no";
            default -> word;
        };
    }

    static List<SessionView.Group> groups(Session session) {
        List<SessionView.Group> groups = new ArrayList<>();
        groups(groups, "tracks", "Tracks", session.groups());
        groups(groups, "mix", "Mix, in a mixdown", session.mix());
        return groups;
    }

    static List<SessionView.Group> groups(Form form) {
        List<SessionView.Group> groups = new ArrayList<>();
        for (String table : List.of("tracks", "mix")) {
            for (int i = 0; i < MOST_GROUPS && form.fields().containsKey(table + i + "-count"); i++) {
                String at = table + i;
                groups.add(group(
                        at,
                        table.equals("mix") ? "Mix, in a mixdown" : "Tracks",
                        form.field(at + "-count"),
                        form.field(at + "-rate"),
                        form.field(at + "-word")));
            }
        }
        return groups;
    }

    private static void groups(List<SessionView.Group> groups, String table, String legend, List<TrackGroup> tracks) {
        for (int i = 0; i < Math.min(MOST_GROUPS, tracks.size() + EMPTY_GROUPS); i++) {
            TrackGroup one = i < tracks.size() ? tracks.get(i) : null;
            groups.add(group(
                    table + i,
                    legend,
                    one == null ? "" : Integer.toString(one.tracks()),
                    one == null ? "" : Integer.toString(one.sampleRateHz()),
                    one == null ? "" : one.format().words()));
        }
    }

    private static SessionView.Group group(String at, String legend, String count, String rate, String word) {
        return new SessionView.Group(
                legend,
                field(at + "-count", OF_GROUP.get(0).label(), count, Key.COUNT),
                field(at + "-rate", OF_GROUP.get(1).label(), rate, Key.SAMPLE_RATE),
                field(at + "-word", OF_GROUP.get(2).label(), word, Key.WORD_LENGTH));
    }

    /** What is wrong with a field, for somebody who sees the form and no file. */
    static String sentence(ProfileError error) {
        Matcher row = ROW.matcher(error.key());
        String field = row.matches()
                ? label(row.group(3)) + " (" + (row.group(1).equals("mix") ? "mix" : "tracks") + ", line "
                        + (Integer.parseInt(row.group(2)) + 1) + ")"
                : label(error.key().replaceFirst("^margins\\.", ""));
        String value = inForm(error.value()).replaceAll("^\\[|]$", "");
        String remedy = OF_FILES.matcher(error.remedy()).find() ? "" : "; " + inForm(error.remedy());
        return (field.isEmpty() ? "" : field + (value.isEmpty() ? "" : ": " + value) + ": ")
                + inForm(error.problem())
                + (error.allowed().isEmpty() ? "" : "; allowed: " + inForm(error.allowed()))
                + remedy;
    }

    /** Without the quotes that files have, and with what fields are called in place of keys. */
    private static String inForm(String text) {
        return KEY.matcher(text.replaceAll("( in|, without) quotes", "").replace("\"", ""))
                .replaceAll(key -> Matcher.quoteReplacement(label(key.group())));
    }

    /** What the field of a key is called; the key itself where it has none. */
    private static String label(String toml) {
        return Stream.of(TOP, MARGINS, OF_GROUP)
                .flatMap(List::stream)
                .filter(entry -> entry.key().toml().equals(toml))
                .map(entry -> entry.label().replaceFirst("[,;].*", ""))
                .findFirst()
                .orElse(toml);
    }

    /** The session file that says what was filled in. */
    static String toml(Form form) {
        StringBuilder toml = new StringBuilder();
        for (Entry entry : TOP) {
            String value = form.field(name(entry));
            // what is optional may be left empty; of all else the rules say that it is missing
            if (!value.isEmpty() || entry.key() == Key.ABOUT) {
                line(toml, entry.key(), value);
            }
        }
        for (SessionView.Group group : groups(form)) {
            String at = group.count().name().replaceFirst("[0-9]+-count$", "");
            List<String> values = List.of(
                    group.count().value().full(),
                    group.rate().value().full(),
                    group.word().value().full());
            if (values.stream().anyMatch(value -> !value.isEmpty())) {
                toml.append("\n[[").append(at).append("]]\n");
                List<Key> keys = List.of(Key.COUNT, Key.SAMPLE_RATE, Key.WORD_LENGTH);
                for (int i = 0; i < keys.size(); i++) {
                    if (!values.get(i).isEmpty()) {
                        line(toml, keys.get(i), values.get(i));
                    }
                }
            }
        }
        toml.append("\n[margins]\n");
        for (Entry entry : MARGINS) {
            String value = form.field(name(entry));
            if (!value.isEmpty()) {
                line(toml, entry.key(), value);
            }
        }
        return toml.toString();
    }

    private static void line(StringBuilder toml, Key key, String value) {
        toml.append(key.toml()).append(" = ").append(value(key, value)).append('\n');
    }

    private static String value(Key key, String value) {
        return switch (key.form().kind()) {
            case TEXT, WORD -> quoted(value);
            case TEXTS -> texts(value);
            default -> PLAIN.matcher(value).matches() ? value : quoted(value);
        };
    }

    private static String texts(String value) {
        List<String> quoted = new ArrayList<>();
        for (String one : value.split(",", -1)) {
            quoted.add(quoted(TradeName.word(one.strip())));
        }
        return "[" + String.join(", ", quoted) + "]";
    }

    /** A basic string of TOML 1.0: quotes, backslashes and controls are escaped. */
    private static String quoted(String value) {
        StringBuilder text = new StringBuilder("\"");
        for (int i = 0; i < value.length(); i++) {
            char c = value.charAt(i);
            if (c == '"' || c == '\\') {
                text.append('\\').append(c);
            } else if (c < ' ' || c == 0x7F) {
                text.append(String.format(Locale.ROOT, "\\u%04X", (int) c));
            } else {
                text.append(c);
            }
        }
        return text.append('"').toString();
    }

    private static String length(long seconds) {
        if (seconds % 3600 == 0) {
            return seconds / 3600 + " h";
        }
        return seconds % 60 == 0 ? seconds / 60 + " min" : seconds + " s";
    }

    private static String size(long bytes) {
        long mebibyte = 1L << 20;
        if (bytes % mebibyte == 0) {
            return bytes / mebibyte + " MiB";
        }
        return bytes % 1024 == 0 ? bytes / 1024 + " KiB" : Long.toString(bytes);
    }
}
