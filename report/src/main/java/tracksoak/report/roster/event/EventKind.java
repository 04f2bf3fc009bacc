package tracksoak.report.roster.event;

import java.util.Optional;
import tracksoak.profiles.base.KebabCase;

/** What can happen in a roster. Nothing is ever changed or deleted: the opposite of an event is another event. */
public enum EventKind {
    /** A signed run record was entered. */
    RECORD_ENTERED,
    /** A drive was given a tag. */
    TAG_GIVEN,
    /** A person wrote a note about a drive. */
    NOTE_WRITTEN,
    /** A person took a drive out of use. */
    DRIVE_WITHDRAWN,
    /** A person lifted withdrawals, each by its name. */
    DRIVE_RESTORED,
    /** A person settled which tag a drive carries, by taking back others, each by its name. */
    CONFLICT_SETTLED,
    /** A tester's key was made known. */
    KEY_ADDED,
    /** A tester's key is no longer to be trusted. */
    KEY_REVOKED;

    /** As in JSON: {@code record-entered}. */
    public String word() {
        return KebabCase.of(this);
    }

    /** Whether it is about a drive; else it is about a key. */
    public boolean aboutDrive() {
        return this != KEY_ADDED && this != KEY_REVOKED;
    }

    static Optional<EventKind> of(String word) {
        return KebabCase.read(EventKind.class, word);
    }
}
