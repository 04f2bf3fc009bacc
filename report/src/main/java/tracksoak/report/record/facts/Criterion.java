package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;

/**
 * One criterion of a verdict.
 *
 * @param id the word of a {@link CriterionId}, or one that a newer program knows
 * @param needed what the session asks, in words with its unit
 * @param measured what was measured, in words with its unit; {@code not tested} if it was not
 * @param neededValue what the session asks as a number, null where it is no number
 * @param measuredValue what was measured as a number, null where it is no number or was not tested
 * @param unit unit of both values, empty where they are no numbers
 * @param margin have ÷ need as a factor, null where a factor means nothing
 * @param met true or false; null where it was not tested or the host could have decided it
 * @param decidedByHost true where a delay of the host could have decided it
 * @param sentence one plain sentence
 */
public record Criterion(
        String id,
        String needed,
        String measured,
        @Nullable Double neededValue,
        @Nullable Double measuredValue,
        String unit,
        @Nullable Double margin,
        @Nullable Boolean met,
        boolean decidedByHost,
        String sentence) {

    /** Whether it is that criterion. */
    public boolean is(CriterionId one) {
        return id.equals(one.word());
    }

    /**
     * Have ÷ need with the asked factor part of the need, so that above 1 it is met whatever the criterion; null where that
     * means nothing. {@link #margin} of a criterion that asks for a factor is the bare factor.
     */
    public @Nullable Double headroom() {
        Double asked = unit.equals("×") ? neededValue : null;
        return margin == null || asked == null || asked <= 0 ? margin : Double.valueOf(margin / asked);
    }

    /** Whether it was tested and missed. */
    public boolean missed() {
        return Boolean.FALSE.equals(met);
    }
}
