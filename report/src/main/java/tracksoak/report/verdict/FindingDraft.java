package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;

/** Puts one finding together. */
final class FindingDraft {

    static final String NOT_TESTED = "not tested";

    private static final double MOST_MARGIN = 1000;

    private final CriterionId id;
    private final String needed;
    private final @Nullable Double neededValue;
    private final String unit;
    private final List<String> notes = new ArrayList<>();
    private String measured = NOT_TESTED;
    private @Nullable Double measuredValue;
    private @Nullable Double margin;
    private @Nullable String spoilt;

    FindingDraft(CriterionId id, String needed, @Nullable Double neededValue, String unit) {
        this.id = id;
        this.needed = needed;
        this.neededValue = neededValue;
        this.unit = unit;
    }

    FindingDraft measured(String words, @Nullable Double value) {
        measured = words;
        measuredValue = value;
        return this;
    }

    /** have ÷ need; kept finite for the record. */
    FindingDraft margin(double haveByNeed) {
        margin = Double.isNaN(haveByNeed) ? null : Math.min(haveByNeed, MOST_MARGIN);
        return this;
    }

    /** Something to say besides; nothing is added for an empty one. */
    FindingDraft note(String sentence) {
        if (!sentence.isEmpty()) {
            notes.add(sentence);
        }
        return this;
    }

    Finding met(String sentence) {
        return finding(true, false, false, false, sentence);
    }

    Finding missed(String sentence) {
        return finding(false, false, false, false, sentence);
    }

    /** Nothing can be said; keeps a PASS from being given. */
    Finding open(String sentence) {
        return finding(null, false, true, false, sentence);
    }

    /** The same, and a run to its end would not have settled it either. */
    Finding openAnyway(String sentence) {
        return finding(null, false, true, true, sentence);
    }

    /** The same, and another run like this one would not settle it either. */
    Finding openForGood(String sentence) {
        return finding(null, false, true, true, true, sentence);
    }

    /** Nothing can be said, and a PASS does not hang on it. */
    Finding untested(String sentence) {
        measured = NOT_TESTED;
        measuredValue = null;
        margin = null;
        return finding(null, false, false, false, sentence);
    }

    /** Names what a sleep of the computer spoilt: what would be met is open then. Null for none. */
    FindingDraft spoilt(@Nullable String how) {
        spoilt = how;
        return this;
    }

    /**
     * A criterion judged from the run's phases.
     *
     * @param blame who made it be missed
     * @param done whether all that was planned for it was done
     */
    Finding judged(Blame blame, Carry carry, boolean done, String ifMet, String ifMissed) {
        if (blame == Blame.NOBODY ? !carry.passes() : !carry.misses()) {
            return otherSession();
        }
        return switch (blame) {
            case DRIVE -> missed(ifMissed);
            case HOST ->
                finding(
                        null,
                        true,
                        true,
                        true,
                        ifMissed + " But the computer itself was late, and that alone can have caused it: close other"
                                + " programs, keep it awake and run again.");
            case NEIGHBOUR ->
                openAnyway(
                        ifMissed + " But other drives on its bus moved data meanwhile, and that alone can have caused"
                                + " it: leave them alone or unplug them, and run again.");
            case ANOTHER_PROGRAM ->
                openAnyway(ifMissed + " But another program used the drive meanwhile: stop it and run again.");
            case THE_RUN ->
                openForGood(ifMissed
                        + " But it had become slow only behind more than two such shows write, and then had too"
                        + " short a rest: leave it alone for longer (--idle 8h) and run again.");
            case DETOUR ->
                openForGood(ifMissed
                        + " But on the way there, through the computer's memory or a program, time went by in which the"
                        + " device itself had nothing to do: format the drive with a file system that this computer"
                        + " writes to directly, or use another computer, and run again.");
            case COUNTERS ->
                openAnyway(
                        ifMissed + " But the device's own counters show less than was written, so these figures are not"
                                + " the drive's alone: run again, on another computer if need be.");
            case NOBODY ->
                spoilt != null
                        ? finding(null, true, true, true, ifMet + " But " + spoilt + ": keep it awake and run again.")
                        : done
                                ? met(ifMet)
                                : open("The run ended before this was settled: finish a run. So far: " + ifMet);
        };
    }

    private Finding otherSession() {
        String seen = measured;
        measured = NOT_TESTED;
        measuredValue = null;
        margin = null;
        return openAnyway("Not tested for this session: this run used different tracks (there: " + seen
                + "). Run again with this session.");
    }

    private Finding finding(
            @Nullable Boolean met, boolean byHost, boolean withholds, boolean otherwise, String sentence) {
        return finding(met, byHost, withholds, otherwise, false, sentence);
    }

    private Finding finding(
            @Nullable Boolean met,
            boolean byHost,
            boolean withholds,
            boolean otherwise,
            boolean lasting,
            String sentence) {
        return new Finding(
                new Criterion(
                        id.word(), needed, measured, neededValue, measuredValue, unit, margin, met, byHost, sentence),
                withholds,
                otherwise,
                lasting,
                notes);
    }
}
