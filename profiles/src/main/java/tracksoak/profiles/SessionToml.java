package tracksoak.profiles;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Quantity;

/** Writes a session as the TOML text {@link SessionReader} reads back to an equal one. Confined to one thread. */
public final class SessionToml {
    private final StringBuilder toml = new StringBuilder();
    private final Map<Key, String> comments;

    private SessionToml(Map<Key, String> comments) {
        this.comments = comments;
    }

    /** The profile of a session, every key with its unit, ready to be changed by hand. */
    public static String write(Session session) {
        return write(session, Map.of());
    }

    /** The same with words of one's own behind some keys: where their values come from. */
    public static String write(Session session, Map<Key, String> comments) {
        return new SessionToml(comments).all(session);
    }

    private String all(Session session) {
        line(Key.NAME, quoted(session.name()), "");
        line(Key.TITLE, quoted(session.title()), "");
        line(Key.ABOUT, quoted(session.about()), "");
        line(Key.KIND, quoted(ProfileWords.of(session.kind())), "recording, playback, mixdown or archive");
        line(Key.LENGTH, quoted(Quantity.exactSeconds(session.lengthS())), "");
        toml.append('\n');
        line(Key.LAYOUT, quoted(ProfileWords.of(session.layout())), "file-per-track or interleaved");
        line(Key.CHUNK, quoted(Quantity.exactBytes(session.chunkBytes())), "the piece written at once");
        line(Key.ARRIVAL, quoted(ProfileWords.of(session.arrival())), "burst (all tracks together) or staggered");
        line(Key.WRITERS, session.writers(), "writes in flight at once");
        line(Key.FLUSH, Quantity.plain(session.flushS()), "s; 0 for no flush before the end");
        line(Key.HEADER, Quantity.plain(session.headerS()), "s; 0 for at the end of a file only");
        line(Key.SPACE_IN_ADVANCE, quoted(session.spaceInAdvanceBytes() + " B"), "a file is given ahead; 0 B for none");
        line(Key.BUFFER, Quantity.plain(session.bufferS()), "s the recorder holds per track");
        line(Key.BUFFER_ASSUMED, session.bufferAssumed(), "false once the recorder's buffer is known");
        line(Key.FILE_LIMIT, session.fileLimitBytes(), "bytes; largest file before the next one is started");
        String names = session.fileSystems().stream().map(SessionToml::quoted).collect(Collectors.joining(", "));
        line(Key.FILE_SYSTEMS, "[" + names + "]", "what the recorder accepts");
        line(Key.STALL_LIMIT, session.stallLimitMs(), "a longer wait is a stall");
        line(Key.RISK, Quantity.plain(session.risk()), "chance of losing audio in one show that is accepted");
        line(Key.VALID_DAYS, session.validDays(), "days a PASS counts in the roster");
        groups(Key.TRACKS, session.groups());
        groups(Key.MIX, session.mix());
        margins(session.margins());
        return toml.toString();
    }

    private void groups(Key key, List<TrackGroup> groups) {
        for (TrackGroup group : groups) {
            toml.append("\n[[").append(key.toml()).append("]]\n");
            line(Key.COUNT, group.tracks(), "");
            line(Key.SAMPLE_RATE, group.sampleRateHz(), "");
            line(Key.WORD_LENGTH, quoted(group.format().words()), "");
        }
    }

    private void margins(Margins margins) {
        toml.append("\n[").append(Key.MARGINS.toml()).append("]\n");
        line(Key.MARGIN_BUFFER, Quantity.plain(margins.buffer()), "recorder buffer / peak backlog");
        line(Key.MARGIN_RATE, Quantity.plain(margins.rate()), "floor / demand, and 1 / busy fraction");
        line(Key.MARGIN_PORT, Quantity.plain(margins.port()), "link speed / demand");
        line(Key.MARGIN_PLAYBACK, Quantity.plain(margins.playback()), "read-ahead / peak shortfall");
        line(Key.LONGEST_STALL, margins.longestStallMs(), "");
        line(Key.CLOSE, margins.closeMs(), "from \"stop\" to \"safe to unplug\"");
    }

    private void line(Key key, Object value, String usual) {
        String comment = comments.getOrDefault(key, usual);
        toml.append(key.toml()).append(" = ").append(value);
        toml.append(comment.isEmpty() ? "" : "  # " + Inert.whole(comment)).append('\n');
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
