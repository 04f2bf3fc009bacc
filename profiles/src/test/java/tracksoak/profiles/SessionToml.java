package tracksoak.profiles;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Quantity;

/** Writes a session as the TOML text {@link SessionReader} reads back to an equal one. Stateless. */
final class SessionToml {
    private SessionToml() {}

    /** The profile of a session, every key with its unit, ready to be changed by hand. */
    public static String write(Session session) {
        StringBuilder toml = new StringBuilder();
        line(toml, Key.NAME, quoted(session.name()), "");
        line(toml, Key.TITLE, quoted(session.title()), "");
        line(toml, Key.ABOUT, quoted(session.about()), "");
        line(toml, Key.KIND, quoted(ProfileWords.of(session.kind())), "recording, playback, mixdown or archive");
        line(toml, Key.LENGTH, quoted(Quantity.exactSeconds(session.lengthS())), "");
        toml.append('\n');
        line(toml, Key.LAYOUT, quoted(ProfileWords.of(session.layout())), "file-per-track or interleaved");
        line(toml, Key.CHUNK, quoted(Quantity.exactBytes(session.chunkBytes())), "the piece written at once");
        line(toml, Key.ARRIVAL, quoted(ProfileWords.of(session.arrival())), "burst (all tracks together) or staggered");
        line(toml, Key.WRITERS, session.writers(), "writes in flight at once");
        line(toml, Key.FLUSH, Quantity.plain(session.flushS()), "s; 0 for no flush before the end");
        line(toml, Key.BUFFER, Quantity.plain(session.bufferS()), "s the recorder holds per track");
        line(toml, Key.BUFFER_ASSUMED, session.bufferAssumed(), "false once the recorder's buffer is known");
        line(toml, Key.FILE_LIMIT, session.fileLimitBytes(), "bytes; largest file before the next one is started");
        String names = session.fileSystems().stream().map(SessionToml::quoted).collect(Collectors.joining(", "));
        line(toml, Key.FILE_SYSTEMS, "[" + names + "]", "what the recorder accepts");
        line(toml, Key.STALL_LIMIT, session.stallLimitMs(), "a longer wait is a stall");
        line(toml, Key.VALID_DAYS, session.validDays(), "days a PASS counts in the roster");
        groups(toml, Key.TRACKS, session.groups());
        groups(toml, Key.MIX, session.mix());
        margins(toml, session.margins());
        return toml.toString();
    }

    private static void groups(StringBuilder toml, Key key, List<TrackGroup> groups) {
        for (TrackGroup group : groups) {
            toml.append("\n[[").append(key.toml()).append("]]\n");
            line(toml, Key.COUNT, group.tracks(), "");
            line(toml, Key.SAMPLE_RATE, group.sampleRateHz(), "");
            line(toml, Key.WORD_LENGTH, quoted(group.format().words()), "");
        }
    }

    private static void margins(StringBuilder toml, Margins margins) {
        toml.append("\n[").append(Key.MARGINS.toml()).append("]\n");
        line(toml, Key.MARGIN_BUFFER, Quantity.plain(margins.buffer()), "recorder buffer / peak backlog");
        line(toml, Key.MARGIN_RATE, Quantity.plain(margins.rate()), "floor / demand, and 1 / busy fraction");
        line(toml, Key.MARGIN_PORT, Quantity.plain(margins.port()), "link speed / demand");
        line(toml, Key.MARGIN_PLAYBACK, Quantity.plain(margins.playback()), "read-ahead / peak shortfall");
        line(toml, Key.LONGEST_STALL, margins.longestStallMs(), "");
        line(toml, Key.CLOSE, margins.closeMs(), "from \"stop\" to \"safe to unplug\"");
    }

    private static void line(StringBuilder toml, Key key, Object value, String comment) {
        toml.append(key.toml()).append(" = ").append(value);
        toml.append(comment.isEmpty() ? "" : "  # " + comment).append('\n');
    }

    private static String quoted(String text) {
        StringBuilder quoted = new StringBuilder("\"");
        text.codePoints().forEach(c -> {
            if (c == '"' || c == '\\') {
                quoted.append('\\').appendCodePoint(c);
            } else if (Inert.mustBeEscaped(c)) {
                quoted.append(String.format(Locale.ROOT, "\\U%08X", c));
            } else {
                quoted.appendCodePoint(c);
            }
        });
        return quoted.append('"').toString();
    }
}
