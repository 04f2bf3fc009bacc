package tracksoak.report.history;

import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Serials;

/**
 * Why two runs are taken to be of one drive, and how sure that is.
 *
 * @param sure whether another drive could hardly match as well
 * @param sentence by what they were matched, in words
 */
public record Likeness(boolean sure, String sentence) {

    /**
     * Whether a run was of the same drive.
     *
     * @param now the drive asked about
     * @param tag what the crew calls it, null if nobody said
     * @param then the drive of the other run
     * @param thenTag what the crew called that, null if nobody said
     * @return empty if it was another drive or nothing shows that it was this one
     */
    public static Optional<Likeness> of(
            DriveFacts now, @Nullable String tag, DriveFacts then, @Nullable String thenTag) {
        boolean sameKind = same(now.maker(), then.maker()) && same(now.model(), then.model());
        boolean sameSize = Objects.equals(now.sizeBytes(), then.sizeBytes());
        if (Serials.usable(now.serial()) && Serials.usable(then.serial())) {
            if (!sameKind || !same(now.serial(), then.serial())) {
                return Optional.empty();
            }
            return Optional.of(
                    sameSize
                            ? new Likeness(true, "by maker, model and serial number")
                            : new Likeness(
                                    false,
                                    "by maker, model and serial number, but its size is another: an adapter that holds"
                                            + " another disk would look so"));
        }
        if (tag != null && thenTag != null) {
            return tag.equalsIgnoreCase(thenTag)
                    ? Optional.of(new Likeness(
                            sameKind && sameSize,
                            "by the tag " + Inert.text(tag) + ", as it has no usable serial number; as sure as the tag"
                                    + " stuck to it"
                                    + (sameKind && sameSize ? "" : ", and maker, model or size differ")))
                    : Optional.empty();
        }
        boolean named = now.maker() != null || now.model() != null;
        return named && sameKind && sameSize && now.sizeBytes() != null
                ? Optional.of(new Likeness(
                        false,
                        "by maker, model and size alone, as it has no usable serial number: any other drive of the same"
                                + " kind would match as well; give each a --tag"))
                : Optional.empty();
    }

    private static boolean same(@Nullable String a, @Nullable String b) {
        if (a == null || b == null) {
            return a == null && b == null;
        }
        return a.strip().equalsIgnoreCase(b.strip());
    }
}
