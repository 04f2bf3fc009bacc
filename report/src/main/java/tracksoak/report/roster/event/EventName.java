package tracksoak.report.roster.event;

import java.util.Optional;
import java.util.regex.Pattern;
import tracksoak.profiles.base.Digests;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.sign.CanonicalJson;

/**
 * The name an event has everywhere: its id, a dot, and the first 32 hexadecimal digits (128 bits) of the SHA-256 of its canonical bytes. Two
 * events that claim one id stay two, and no two can be made that share a name. Sorted by name, events are in the order of their
 * authors' clocks.
 *
 * <p>Names used to hold 12 digits, of which two equal ones can be found in minutes. Such a name still stands in what old restorations and
 * settlements take back, and nowhere else: there it means every event whose name begins with it. Whoever made two of them made both
 * themselves, so nothing is taken back but their own.
 */
public final class EventName {

    private static final int DIGITS = 32;
    private static final int OLD_DIGITS = 12;
    private static final Pattern NAME = Pattern.compile(
            "[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}\\.[0-9a-f]{12}([0-9a-f]{20})?");
    private static final int ID = 36;

    /** Longest name in characters. */
    public static final int LONGEST = ID + 1 + DIGITS;

    private EventName() {}

    static String of(String id, byte[] canonical) {
        return id + "." + Digests.sha256Hex(canonical).substring(0, DIGITS);
    }

    /** Whether an event of these canonical bytes has this name. */
    public static boolean fits(String name, byte[] canonical) {
        return name.length() == LONGEST && Digests.sha256Hex(canonical).startsWith(name.substring(ID + 1));
    }

    /** The name that an event has as it came, though it cannot be read as one; none where it is no JSON or has no id. */
    public static Optional<String> of(byte[] json) {
        try {
            return json.length > EventJson.MOST_BYTES
                    ? Optional.empty()
                    : EventJson.id(json).filter(EventName::isId).map(id -> of(id, CanonicalJson.of(json)));
        } catch (RecordException noJson) {
            return Optional.empty();
        }
    }

    /** Whether a text is a name of today's length. */
    public static boolean isWhole(String text) {
        return text.length() == LONGEST && isOne(text);
    }

    /** Whether a text is a name, old ones included. */
    static boolean isOne(String text) {
        return NAME.matcher(text).matches();
    }

    /** Whether a text is an id: a UUID of version 7. */
    static boolean isId(String text) {
        return isOne(text + ".000000000000");
    }

    /** The name an event had while names held 12 digits. */
    public static String old(String name) {
        return name.length() <= ID + 1 + OLD_DIGITS ? name : name.substring(0, ID + 1 + OLD_DIGITS);
    }
}
