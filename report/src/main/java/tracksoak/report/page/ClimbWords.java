package tracksoak.report.page;

import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import tracksoak.profiles.Margins;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbStep;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.IoMode;

/** The figures of a climb in words. Stateless. */
public final class ClimbWords {

    private static final String SIMULATED =
            "This drive is simulated: nothing to pack and nothing to leave at home. Now climb with a real one.";

    private ClimbWords() {}

    /** {@code 24 tracks} or {@code 88.2 kHz}. */
    static String amount(ClimbRecord record, int value) {
        return record.ladder().grows() == ClimbRecord.Grows.TRACKS
                ? value + (value == 1 ? " track" : " tracks")
                : String.format(Locale.ROOT, "%.1f kHz", value / 1000.0).replace(".0 ", " ");
    }

    static String stamp(ClimbRecord record, ClimbResult result) {
        return switch (result.withMargin().how()) {
            case CONFIRMED ->
                amount(record, Objects.requireNonNull(result.withMargin().at()));
            case NONE -> "NONE";
            case UNSURE, UNFINISHED ->
                result.outcome() == tracksoak.report.record.facts.Verdict.Outcome.FAIL ? "NONE" : "NO ANSWER";
        };
    }

    static String scope(ClimbRecord record) {
        long takes = count(record, ClimbStep.Kind.TAKE);
        long checks = count(record, ClimbStep.Kind.CHECK);
        long bytes = record.steps().stream().mapToLong(ClimbStep::bytes).sum();
        return Count.of(takes, "short take") + " and " + Count.of(checks, "sound-check") + ", " + Units.bytes(bytes)
                + " written in them; on this port and this computer, as full and as old as the drive was then.";
    }

    private static long count(ClimbRecord record, ClimbStep.Kind kind) {
        return record.steps().stream().filter(step -> step.kind() == kind).count();
    }

    static String margins(ClimbRecord record) {
        Margins margins = record.session().margins();
        return "buffer " + Units.factor(margins.buffer()) + ", rate " + Units.factor(margins.rate());
    }

    static String ladder(ClimbRecord record) {
        return amount(record, record.ladder().least()) + " to "
                + amount(record, record.ladder().most()) + ". "
                + record.ladder().mostBecause();
    }

    static String fill(FillFacts fill) {
        return "lowest 10 s " + Units.rate(fill.floorBytesPerSecond())
                + (fill.steady() ? ", steady" : ", not yet steady");
    }

    /** The criteria a try missed, as people know them. */
    public static String missed(ClimbStep step) {
        return step.missed().stream()
                .map(id -> CriterionId.of(id).map(CriterionId::title).orElse(id).toLowerCase(Locale.ROOT))
                .collect(Collectors.joining(", "));
    }

    /** What to do now. */
    public static String advice(ClimbRecord record, ClimbResult result) {
        return switch (result.outcome()) {
            case PASS ->
                record.ioMode() == IoMode.SIMULATED
                        ? SIMULATED
                        : "Record up to " + stamp(record, result)
                                + " on this drive. Before a show, run a sound-check of that show's own " + "session.";
            case FAIL ->
                record.ioMode() == IoMode.SIMULATED
                        ? SIMULATED
                        : "Leave it at home for this kind of session, or record with a longer buffer if the recorder has one.";
            case NO_VERDICT ->
                "There is no number to rely on yet. Put right what is named as the reason, then climb again.";
        };
    }
}
