package tracksoak.report.roster.identity;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;

/**
 * The crew's own tag on a drive, such as {@code S-014}: 1 to 24 capital letters, digits, dots, hyphens and underscores of
 * ASCII, beginning with a letter or a digit and no drive's id, so that it fits a label, an address and a file name. Stateless.
 */
public final class DriveTag {

    private static final Pattern TAG = Pattern.compile("[A-Z0-9][A-Z0-9._-]{0,23}");

    private static final Pattern TYPED = Pattern.compile("[A-Za-z0-9._-]+");

    private DriveTag() {}

    /**
     * A tag as a person typed it: white space at its ends goes, small letters become capitals.
     *
     * @throws Problem if it cannot be one
     */
    public static String of(String typed) {
        return from(typed)
                .orElseThrow(() -> Kind.ASKED_WRONG.problem(
                        "the tag \"" + Inert.text(typed) + "\" cannot be used",
                        "a tag has 1 to 24 of the letters A to Z, digits, dots, hyphens or underscores, begins with a"
                                + " letter or digit, and is no drive's id",
                        "give one such as S-014"));
    }

    /** The same; none if it cannot be one. Letters beyond ASCII become none of ASCII by being put into upper case. */
    public static Optional<String> from(String typed) {
        String bare = typed.strip();
        return TYPED.matcher(bare).matches()
                ? Optional.of(bare.toUpperCase(Locale.ROOT)).filter(DriveTag::isOne)
                : Optional.empty();
    }

    /** Whether a text is a tag as it is; never one that is read as the id of a drive. */
    public static boolean isOne(String text) {
        return TAG.matcher(text).matches() && !DriveId.isOne(text.toLowerCase(Locale.ROOT));
    }
}
