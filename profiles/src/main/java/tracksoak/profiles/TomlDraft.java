package tracksoak.profiles;

import java.util.Arrays;
import java.util.List;
import org.tomlj.TomlTable;

/** Takes the values of a profile out of its tables, minding types only; {@link SessionRules} minds the rest. */
final class TomlDraft {
    private static final List<Key> TOP = Arrays.stream(Key.values())
            .filter(k -> !k.isMargin() && !k.isOfGroup())
            .toList();
    private static final List<Key> MARGIN_KEYS =
            Arrays.stream(Key.values()).filter(Key::isMargin).toList();

    private TomlDraft() {}

    static Draft read(TomlTable toml, String file, Problems problems) {
        KeyedTable top = new KeyedTable(toml, "", file, 1, problems);
        top.refuseAllBut(TOP);
        Draft draft = new Draft();
        draft.name = top.text(Key.NAME);
        draft.title = top.text(Key.TITLE);
        draft.about = top.text(Key.ABOUT);
        draft.kind = top.oneOf(Key.KIND, SessionKind.class);
        draft.lengthS = top.length(Key.LENGTH);
        draft.layout = top.oneOf(Key.LAYOUT, FileLayout.class);
        draft.chunkBytes = top.size(Key.CHUNK);
        draft.arrival = top.oneOf(Key.ARRIVAL, Arrival.class);
        draft.writers = top.whole(Key.WRITERS);
        draft.flushS = top.number(Key.FLUSH);
        draft.bufferS = top.number(Key.BUFFER);
        draft.bufferAssumed = top.flag(Key.BUFFER_ASSUMED);
        draft.fileLimitBytes = top.size(Key.FILE_LIMIT);
        draft.fileSystems = top.texts(Key.FILE_SYSTEMS);
        draft.stallLimitMs = top.whole(Key.STALL_LIMIT);
        draft.validDays = top.has(Key.VALID_DAYS) ? top.whole(Key.VALID_DAYS) : Long.valueOf(Session.USUAL_VALID_DAYS);
        draft.groups.addAll(top.groups(Key.TRACKS));
        if (!top.has(Key.TRACKS)) {
            problems.missing(1, 1, Key.TRACKS.toml(), Key.TRACKS);
        }
        draft.mix.addAll(top.groups(Key.MIX));
        KeyedTable margins = top.table(Key.MARGINS);
        if (margins != null) {
            readMargins(margins, draft);
        }
        return draft;
    }

    private static void readMargins(KeyedTable margins, Draft draft) {
        margins.refuseAllBut(MARGIN_KEYS);
        draft.marginBuffer = margins.number(Key.MARGIN_BUFFER);
        draft.marginRate = margins.number(Key.MARGIN_RATE);
        draft.marginPort = margins.number(Key.MARGIN_PORT);
        draft.marginPlayback = margins.number(Key.MARGIN_PLAYBACK);
        draft.longestStallMs = margins.whole(Key.LONGEST_STALL);
        draft.closeMs = margins.whole(Key.CLOSE);
    }
}
