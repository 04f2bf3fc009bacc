package tracksoak.report.record.facts;

import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Which serial numbers tell two drives of one model apart. Cheap sticks come with none, with zeros, or with the same one
 * in every piece: common practice, no source. Stateless.
 */
public final class Serials {

    /** Shortest serial taken for one, in letters and digits: the USB mass-storage class asks for 12, many have fewer. */
    static final int SHORTEST = 5;

    private static final int LONGEST = 128;

    /** What stands for bytes that are no text: other bytes of another drive read the same. */
    private static final char UNREADABLE = '\uFFFD';

    private static final Pattern NOT_ALPHANUMERIC = Pattern.compile("[^0-9A-Za-z]");
    private static final Set<String> PLACEHOLDERS = Set.of(
            "0123456789",
            "01234567890123456789",
            "0123456789ABCDEF",
            "012345678901",
            "012345678912",
            "0123456789AB",
            "0987654321",
            "12345",
            "123456",
            "1234567",
            "12345678",
            "123456789",
            "1234567890",
            "123456789012",
            "123456789ABC",
            "123456789ABCDEF",
            "1234567890ABCDEF",
            "ABCDEF",
            "ABCDEFGH",
            "DEADBEEF",
            "DEFAULT",
            "DEFAULTSTRING",
            "EMPTY",
            "GENERIC",
            "INVALID",
            "NOTAPPLICABLE",
            "NOTAVAILABLE",
            "NOTSPECIFIED",
            "NOSERIAL",
            "NOSERIALNUMBER",
            "NUMBER",
            "PLACEHOLDER",
            "SERIAL",
            "SERIALNUMBER",
            "TOBEFILLEDBYOEM",
            "UNDEFINED",
            "UNKNOWN",
            "USBDISK",
            "XXXXXXXXXXXX");

    private Serials() {}

    /** Whether a serial tells one drive from another of its model. */
    public static boolean usable(@Nullable String serial) {
        if (serial == null || serial.length() > LONGEST || serial.indexOf(UNREADABLE) >= 0) {
            return false;
        }
        // others first: put into upper case, one letter of theirs may become three of ours
        String plain = NOT_ALPHANUMERIC.matcher(serial).replaceAll("").toUpperCase(Locale.ROOT);
        return plain.length() >= SHORTEST
                && plain.chars().distinct().count() > 1
                && !PLACEHOLDERS.contains(plain)
                && !onlyAnEndOfZeros(plain);
    }

    /** 000000000001 and the like: nothing but zeros before one digit. */
    private static boolean onlyAnEndOfZeros(String plain) {
        return plain.substring(0, plain.length() - 1).chars().allMatch(c -> c == '0');
    }
}
