package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.RecordParts;

/**
 * What was to be done.
 *
 * @param name the word of a {@link PlanName}, or one that a newer program knows
 * @param shortened true if any duration is below the plan's own: a PASS then says so and never counts as the full plan
 * @param takeBeforeS length of the take before the fill in s, 0 for none
 * @param fillCapS longest time the fill may take in s, 0 for no fill
 * @param takeAfterS length of the take after the fill in s; the only take of a line-check
 * @param idleS how long the drive is left alone before each take, in s
 * @param bytesPlanned most bytes the run may write
 * @param reserveBytes room that was to stay free beside the session, in bytes; null where nobody wrote it down
 * @param wholeSpace whether the fill takes the whole free space but the reserve
 * @param copyS length of the show copied on at full speed, in s of the session, 0 for none
 * @param copyCapS longest time the copy may take in s, 0 for no copy
 * @param playbackS length of the playback in s, 0 for none
 * @param keepsakeBytes bytes to be left on the drive for a later run, 0 for none
 * @param requalifies id of the earlier run whose plan is repeated, empty for none
 */
public record PlanFacts(
        String name,
        boolean shortened,
        double takeBeforeS,
        double fillCapS,
        double takeAfterS,
        double idleS,
        long bytesPlanned,
        @Nullable Long reserveBytes,
        boolean wholeSpace,
        double copyS,
        double copyCapS,
        double playbackS,
        long keepsakeBytes,
        String requalifies) {

    /** Whether it is that plan. */
    public boolean is(PlanName one) {
        return name.equals(one.word());
    }

    /** Whether a PASS of it, not shortened, makes a drive trusted. */
    public boolean trusts() {
        return PlanName.of(name).map(PlanName::trusts).orElse(false);
    }

    /** A plan of takes and a fill that ends by itself, and nothing more. */
    public static PlanFacts of(
            PlanName name,
            boolean shortened,
            double takeBeforeS,
            double fillCapS,
            double takeAfterS,
            long bytesPlanned) {
        return RecordParts.empty(PlanFacts.class)
                .with("name", name.word())
                .with("shortened", shortened)
                .with("takeBeforeS", takeBeforeS)
                .with("fillCapS", fillCapS)
                .with("takeAfterS", takeAfterS)
                .with("bytesPlanned", bytesPlanned)
                .with("requalifies", "")
                .make();
    }

    /** The same plan beside such a reserve. */
    public PlanFacts keeping(long newReserveBytes) {
        return RecordParts.of(this).with("reserveBytes", newReserveBytes).make();
    }

    /** The same plan with a keepsake left and an earlier run repeated. */
    public PlanFacts besides(long newKeepsakeBytes, String newRequalifies) {
        return RecordParts.of(this)
                .with("keepsakeBytes", newKeepsakeBytes)
                .with("requalifies", newRequalifies)
                .make();
    }
}
