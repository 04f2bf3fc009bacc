package tracksoak.report.record.facts;

import java.util.Optional;
import tracksoak.profiles.base.KebabCase;

/** The criteria of a verdict, in their fixed order. Records hold {@link #word}; one of a newer program may hold others. */
public enum CriterionId {
    LOST_AUDIO("Lost audio", "audio is lost"),
    BUFFER_MARGIN("Buffer margin", "the buffer margin is too small"),
    RATE_MARGIN("Rate margin", "the rate margin is too small"),
    LONGEST_STALL("Longest stall", "a stall is too long"),
    CLOSE_TIME("Close", "the close takes too long"),
    INTACT("Intact", "not all comes back as written"),
    ROOM("Room", "the session does not fit"),
    FORMAT("File system", "the file system does not suit the session"),
    PORT("Port", "the port is too slow"),
    PLAYBACK("Playback", "the playback is too slow");

    private final String title;
    private final String ifMissed;

    CriterionId(String title, String ifMissed) {
        this.title = title;
        this.ifMissed = ifMissed;
    }

    /** The criterion of that word; empty for a word this program does not know. */
    public static Optional<CriterionId> of(String word) {
        return KebabCase.read(CriterionId.class, word);
    }

    /** As records and scripts know it: {@code lost-audio}. */
    public String word() {
        return KebabCase.of(this);
    }

    /** What it is called on a page: {@code Lost audio}. */
    public String title() {
        return title;
    }

    /** What it means if it is missed, in a few words: {@code audio is lost}. */
    public String ifMissed() {
        return ifMissed;
    }
}
