package tracksoak.bench.climb;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Margins;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbResult.How;
import tracksoak.report.record.facts.ClimbStep;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict.Outcome;

/** What a climb came to, in words and figures. */
final class ClimbConclusion {

    private final ClimbOrder order;
    private final List<Observation> log;
    private final List<ClimbStep> steps;
    private final ClimbResult.Edge margin;
    private final ClimbResult.@Nullable Edge loss;
    private final boolean finished;

    private ClimbConclusion(ClimbOrder order, List<Observation> log, List<ClimbStep> steps, Decision last) {
        this.order = order;
        this.log = log;
        this.steps = steps;
        Decision.End end = last instanceof Decision.End over ? over : soFar(order, log);
        this.finished = last instanceof Decision.End;
        this.margin = edge(end.margin(), finished);
        this.loss = end.loss().how() == Edge.How.NOT_ASKED ? null : edge(end.loss(), finished);
    }

    public static ClimbResult of(
            ClimbOrder order,
            List<Observation> log,
            List<ClimbStep> steps,
            List<ClimbStep> cutOff,
            Decision last,
            RunState state,
            String stateReason,
            boolean stopped,
            @Nullable ClimbStep stoppedAt) {
        ClimbConclusion answer = new ClimbConclusion(order, log, steps, last);
        if (stopped) {
            return answer.stopped(stoppedAt);
        }
        List<String> reasons = new ArrayList<>();
        if (state != RunState.COMPLETE) {
            reasons.add("The climb was " + (state == RunState.INTERRUPTED ? "interrupted" : "kept from its end")
                    + (stateReason.isEmpty() ? "" : " (" + stateReason + ")") + ": climb again to the end.");
        }
        answer.unsure(reasons);
        answer.cutOff(cutOff, reasons);
        Outcome outcome = switch (answer.margin.how()) {
            case CONFIRMED -> Outcome.PASS;
            case NONE -> Outcome.FAIL;
            case UNSURE, UNFINISHED -> Outcome.NO_VERDICT;
        };
        return answer.result(outcome, answer.sentence(), reasons);
    }

    /** What is confirmed after a climb that did not come to its end. */
    private static Decision.End soFar(ClimbOrder order, List<Observation> log) {
        return new Decision.End(
                highest(log, Goal.MARGIN),
                order.askLoss() ? highest(log, Goal.LOSS) : new Edge(Edge.How.NOT_ASKED, 0, 0));
    }

    private static Edge highest(List<Observation> log, Goal goal) {
        int rung = log.stream()
                .filter(seen -> seen.kind() == Observation.Kind.CHECK && Boolean.TRUE.equals(seen.to(goal)))
                .mapToInt(Observation::rung)
                .max()
                .orElse(0);
        return new Edge(rung == 0 ? Edge.How.NONE : Edge.How.CONFIRMED, rung, 0);
    }

    private ClimbResult.Edge edge(Edge found, boolean over) {
        How how = switch (found.how()) {
            case CONFIRMED -> How.CONFIRMED;
            case NONE, NOT_ASKED -> over ? How.NONE : How.UNFINISHED;
            case UNSURE -> How.UNSURE;
        };
        Integer above = found.above() == 0 ? null : (Integer) order.ladder().value(found.above());
        return new ClimbResult.Edge(
                how,
                how == How.CONFIRMED ? (Integer) order.ladder().value(found.rung()) : null,
                above,
                above == null ? List.of() : missedAt(above));
    }

    /** Criteria missed at a value: in the check there, else in the take. */
    private List<String> missedAt(int value) {
        List<String> missed = List.of();
        for (ClimbStep step : steps) {
            if (step.at() == value
                    && !step.missed().isEmpty()
                    && (missed.isEmpty() || step.kind() == ClimbStep.Kind.CHECK)) {
                missed = step.missed();
            }
        }
        return missed;
    }

    private String sentence() {
        String carried = switch (margin.how()) {
            case CONFIRMED -> (finished ? "" : "At least ") + amount(margin.at()) + " with " + asked();
            case NONE -> "Not even " + amount(order.ladder().value(1)) + " could be confirmed with " + asked();
            case UNSURE -> "How many it carries with " + asked() + " is unknown";
            case UNFINISHED -> "Nothing was confirmed yet";
        };
        ClimbResult.Edge lost = loss;
        String kept = lost == null
                ? ""
                : switch (lost.how()) {
                    case CONFIRMED ->
                        ", " + brief(lost.at())
                                + (lost.missedAt() == null ? " and no audio lost" : " before audio is lost")
                                + triedFor(lost.at());
                    case NONE -> ", and audio is lost at any";
                    case UNSURE -> "; where audio is lost is unknown";
                    case UNFINISHED -> "";
                };
        return carried + kept + "." + why();
    }

    /** A longer show may lose what a short one did not: how long it was tried, and whether it was ever fast enough. */
    private String triedFor(@Nullable Integer value) {
        ClimbStep tried = null;
        for (ClimbStep step : steps) {
            boolean there = value != null && step.at() == value && Boolean.TRUE.equals(step.kept());
            tried = there && (tried == null || step.seconds() > tried.seconds()) ? step : tried;
        }
        if (tried == null) {
            return "";
        }
        Double rate = tried.rateMargin();
        return " (tried for " + Units.seconds(tried.seconds())
                + (rate != null && rate < 1 ? "; the drive is too slow for it, so a longer take loses audio)" : ")");
    }

    /** What stands in the way of more. */
    private String why() {
        Integer above = margin.missedAt();
        if (margin.how() != How.CONFIRMED && margin.how() != How.NONE) {
            return "";
        }
        if (above == null) {
            return margin.how() == How.CONFIRMED && finished ? " " + order.mostBecause() : "";
        }
        return margin.missed().isEmpty()
                ? ""
                : " At " + amount(above) + " "
                        + margin.missed().stream()
                                .map(id -> CriterionId.of(id)
                                        .map(CriterionId::ifMissed)
                                        .orElse("it misses " + id))
                                .collect(Collectors.joining(", "))
                        + ".";
    }

    /** The second number of a sentence: its unit was said with the first. */
    private String brief(@Nullable Integer value) {
        return margin.how() == How.CONFIRMED && order.ladder().kind() == Ladder.Kind.TRACKS
                ? String.valueOf(value)
                : amount(value);
    }

    private String amount(@Nullable Integer value) {
        if (value == null) {
            return "none";
        }
        return switch (order.ladder().kind()) {
            case TRACKS -> value + (value == 1 ? " track" : " tracks");
            case SAMPLE_RATE ->
                String.format(Locale.ROOT, "%.1f kHz", value / 1000.0).replace(".0 ", " ");
        };
    }

    /** {@code 2× margin}, or both factors where they differ. */
    private String asked() {
        Margins margins = order.base().margins();
        return margins.buffer() == margins.rate()
                ? Units.factor(margins.rate()) + " margin"
                : "the margins asked (buffer " + Units.factor(margins.buffer()) + ", rate "
                        + Units.factor(margins.rate()) + ")";
    }

    private void unsure(List<String> reasons) {
        if (margin.how() != How.UNSURE && (loss == null || loss.how() != How.UNSURE)) {
            return;
        }
        Observation stays = log.stream()
                .filter(seen -> seen.lasting() != null)
                .reduce((first, last) -> last)
                .orElse(null);
        reasons.add(
                stays == null
                        ? "One number was tried three times and gave no answer. "
                                + steps.stream()
                                        .filter(step -> step.carried() == null)
                                        .reduce((first, last) -> last)
                                        .map(ClimbStep::sentence)
                                        .orElse("")
                        : amount(order.ladder().value(stays.rung()))
                                + (stays.kind() == Observation.Kind.TAKE
                                        ? " had one take only, as another would leave it open too: "
                                        : " had one sound-check only, as another would leave it open too: ")
                                + stays.lasting());
    }

    /** That the drive stopped answering stands behind the audio lost at the number that is too many. */
    private void cutOff(List<ClimbStep> cutOff, List<String> reasons) {
        Integer above = margin.missedAt();
        cutOff.stream()
                .filter(step -> above != null && step.at() == above)
                .reduce((first, last) -> last)
                .ifPresent(step -> reasons.add("At " + amount(step.at()) + ": " + step.sentence()));
    }

    private ClimbResult stopped(@Nullable ClimbStep at) {
        return result(
                Outcome.FAIL,
                "This drive is unusable: it stopped answering"
                        + (at == null
                                ? " while it was filled."
                                : (at.kind() == ClimbStep.Kind.TAKE ? " in a take of " : " in a sound-check of ")
                                        + amount(at.at()) + "."),
                List.of());
    }

    private ClimbResult result(Outcome outcome, String sentence, List<String> reasons) {
        List<String> notes = new ArrayList<>();
        if (order.shortened()) {
            notes.add("This was a shortened climb, which never counts as the full one.");
        }
        if (order.base().bufferAssumed()) {
            notes.add("The recorder's buffer of " + Units.seconds(order.base().bufferS())
                    + " is a guess; with another buffer the numbers change.");
        }
        RecorderBuffer.measured(order.base())
                .ifPresent(how -> notes.add("The recorder's buffer of "
                        + Units.seconds(order.base().bufferS()) + " was measured " + how + "."));
        if (order.ladder().kind() == Ladder.Kind.SAMPLE_RATE) {
            notes.add(
                    "Each rate was tried by itself, from the lowest up: a higher rate says nothing about a lower one, as a piece"
                            + " of one size lasts longer at it. Only what had a sound-check is confirmed.");
        }
        if (!order.proveAbove() && margin.how() == How.CONFIRMED && margin.missedAt() != null) {
            notes.add("That " + amount(margin.missedAt())
                    + " are too many was seen in one try, not proven by a sound-check.");
        }
        return new ClimbResult(outcome, sentence, margin, loss, reasons, notes);
    }
}
