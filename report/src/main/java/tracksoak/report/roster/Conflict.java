package tracksoak.report.roster;

import java.util.List;

/**
 * Something about tags that a person must settle ({@link RosterDesk#settle}): no machine can know which stick bears which label.
 *
 * @param kind which of the two
 * @param tags the tags concerned, in order
 * @param drives ids of the drives concerned, in order
 * @param sentence one plain sentence
 */
public record Conflict(Kind kind, List<String> tags, List<String> drives, String sentence) {

    /** The two kinds. */
    public enum Kind {
        /** One tag on more than one drive. */
        TAG_ON_SEVERAL_DRIVES,
        /** One drive under more than one tag. */
        DRIVE_UNDER_SEVERAL_TAGS
    }

    public Conflict {
        tags = List.copyOf(tags);
        drives = List.copyOf(drives);
    }

    /** The sentence, and what it costs until somebody settles it. */
    public String cost() {
        return sentence + " Until then " + (drives.size() > 1 ? "none of them is" : "the drive is not")
                + " offered for tonight.";
    }
}
