package tracksoak.report.roster;

import java.util.List;
import java.util.stream.Collectors;

/**
 * Something about tags that a person must settle ({@link RosterDesk#settle}): no machine can know which stick bears which label.
 *
 * @param kind which of the two
 * @param tags the tags concerned, in order
 * @param drives ids of the drives concerned, in order
 * @param sentence one plain sentence
 * @param ways the ways to settle it, of which one is right; none as long as it would only come about
 */
public record Conflict(Kind kind, List<String> tags, List<String> drives, String sentence, List<Way> ways) {

    /**
     * A way to settle a conflict: this drive bears this tag.
     *
     * @param drive id of the drive
     */
    public record Way(String tag, String drive) {}

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
        ways = List.copyOf(ways);
    }

    /** The sentence, and what it costs until somebody settles it. */
    public String cost() {
        return sentence + " Until then " + (drives.size() > 1 ? "none of them is" : "the drive is not")
                + " offered for tonight.";
    }

    /**
     * What a person does about it, each way a command on a line of its own.
     *
     * @param more what each command needs beside, such as which roster it is
     */
    public String todo(String more) {
        return "look at the label, then one of these, with the reason for WHY:"
                + ways.stream()
                        .map(way -> "\ntracksoak roster settle " + way.tag() + " " + way.drive() + " WHY" + more)
                        .collect(Collectors.joining());
    }
}
