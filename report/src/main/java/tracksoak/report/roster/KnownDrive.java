package tracksoak.report.roster;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.DriveState;

/** A drive as lists need it, whatever the session: what orders and searches look at is worked out once per state. Immutable; any thread. */
final class KnownDrive {

    /** Parts what is searched, so that no search finds the end of one part and the beginning of the next. */
    private static final char BETWEEN = '\n';

    private final DriveState state;
    private final String title;
    private final String label;
    private @Nullable String searched;

    KnownDrive(DriveState state) {
        this.state = state;
        this.title = BoardRow.title(state);
        this.label = state.label();
    }

    DriveState state() {
        return state;
    }

    String id() {
        return state.id();
    }

    List<String> tags() {
        return state.tags();
    }

    String label() {
        return label;
    }

    String title() {
        return title;
    }

    boolean untagged() {
        return state.tags().isEmpty();
    }

    boolean loose() {
        return DriveId.isLoose(state.id());
    }

    /** A record that was entered again under its drive's tag is shown there. */
    boolean moved() {
        return loose() && !state.tags().isEmpty();
    }

    /** For a record without a tag of its own: the drives that the tags it was given name. */
    List<String> tagged() {
        return state.tags().stream().map(this::tagged).sorted().toList();
    }

    /** That which one of these tags names. */
    String tagged(String tag) {
        DriveIdentity identity = state.identity();
        return identity == null ? state.id() : DriveId.of(identity, tag, "");
    }

    /** @param text in small letters, without white space around it */
    boolean contains(String text) {
        String all = searched;
        if (all == null) {
            // two threads may both work it out, and find the same
            all = all().toLowerCase(Locale.ROOT);
            searched = all;
        }
        return text.indexOf(BETWEEN) < 0 && all.contains(text);
    }

    private String all() {
        StringBuilder all = new StringBuilder(state.id());
        state.tags().forEach(tag -> all.append(BETWEEN).append(tag));
        all.append(BETWEEN).append(title);
        String serial = state.identity() == null ? null : state.identity().serial();
        if (serial != null) {
            all.append(BETWEEN).append(serial);
        }
        return all.append(BETWEEN).append(state.lastNote()).toString();
    }
}
