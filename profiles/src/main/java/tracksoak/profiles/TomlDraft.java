package tracksoak.profiles;

import java.util.Arrays;
import java.util.List;

/** Takes the values of a profile out of its tables, minding types only; {@link SessionRules} minds the rest. */
final class TomlDraft {
    private static final List<Key> TOP = Arrays.stream(Key.values())
            .filter(k -> !k.isMargin() && !k.isOfGroup())
            .toList();
    private static final List<Key> MARGIN_KEYS =
            Arrays.stream(Key.values()).filter(Key::isMargin).toList();

    private TomlDraft() {}

    static SessionDraft read(KeyedTable top, ErrorCollector problems) {
        top.refuseAllBut(TOP);
        SessionDraft draft = new SessionDraft();
        read(TOP, top, draft);
        draft.groups.addAll(top.groups(Key.TRACKS));
        if (!top.has(Key.TRACKS)) {
            problems.missing(1, 1, Key.TRACKS.toml(), Key.TRACKS);
        }
        draft.mix.addAll(top.groups(Key.MIX));
        KeyedTable margins = top.table(Key.MARGINS);
        if (margins != null) {
            margins.refuseAllBut(MARGIN_KEYS);
            read(MARGIN_KEYS, margins, draft);
        }
        return draft;
    }

    private static void read(List<Key> keys, KeyedTable table, SessionDraft draft) {
        for (Key key : keys) {
            if (key.isOfSession()) {
                boolean leftOut = key.usual() != null && !table.has(key);
                draft.set(key, leftOut ? key.usual() : key.form().read(table, key));
            }
        }
    }
}
