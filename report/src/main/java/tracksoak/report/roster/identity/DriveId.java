package tracksoak.report.roster.identity;

import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Digests;

/**
 * The name a drive has in every roster: {@code d-} and 20 hexadecimal digits of the SHA-256 over its hardware. Two rosters that
 * never met give one drive one name. A drive whose serial tells nothing is named by maker, model, size and the crew's tag; without a tag
 * each of its records stands alone until a person tags it. Stateless.
 */
public final class DriveId {

    private static final Pattern ID = Pattern.compile("d-[0-9a-f]{20}");
    private static final String LOOSE = "u-";
    private static final Pattern LOOSE_ID = Pattern.compile("u-[0-9a-f]{20}");

    private DriveId() {}

    /**
     * The drive a record belongs to.
     *
     * @param tag the tag the record was entered with, null for none
     * @param recordSha256 names the record where nothing else names the drive
     */
    public static String of(DriveIdentity identity, @Nullable String tag, String recordSha256) {
        if (identity.unique()) {
            return "d-" + digest(identity, "serial", String.valueOf(identity.serial()));
        }
        return tag == null ? LOOSE + digest(identity, "record", recordSha256) : "d-" + digest(identity, "tag", tag);
    }

    /** Whether a text is the id of a drive. */
    public static boolean isOne(String text) {
        return ID.matcher(text).matches() || isLoose(text);
    }

    /** Whether it names a record whose drive nobody can tell from others: it needs a tag. */
    public static boolean isLoose(String text) {
        return text.startsWith(LOOSE) && LOOSE_ID.matcher(text).matches();
    }

    private static String digest(DriveIdentity identity, String by, String value) {
        StringBuilder all = new StringBuilder("tracksoak drive");
        for (Object part :
                new @Nullable Object[] {identity.maker(), identity.model(), identity.sizeBytes(), by, value}) {
            String text = part == null ? "" : part.toString();
            all.append('\n').append(text.length()).append(':').append(text);
        }
        return Digests.sha256Hex(all.toString().getBytes(StandardCharsets.UTF_8))
                .substring(0, 20);
    }
}
