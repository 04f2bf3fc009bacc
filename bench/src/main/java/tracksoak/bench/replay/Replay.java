package tracksoak.bench.replay;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.Estimate;
import tracksoak.report.record.facts.Estimate.Figure;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.facts.Verdict.Outcome;

/**
 * Estimates what a run would have said for another session: its service times are played through the recorder's own loop
 * and books at that session's demand, on virtual time, in four ways. A pure function of session and record. Any thread.
 *
 * <p>PASS only if both cautious ways meet every criterion and the run wrote as much as the session would; FAIL only if both hopeful ways miss one; else NO VERDICT. Outside
 * the range the measurement covers it refuses and says why.
 */
public final class Replay {

    private static final Set<CriterionId> REPLAYED = EnumSet.of(
            CriterionId.LOST_AUDIO,
            CriterionId.BUFFER_MARGIN,
            CriterionId.RATE_MARGIN,
            CriterionId.LONGEST_STALL,
            CriterionId.CLOSE_TIME);

    /** The replay of the run's own session may differ from the run by this factor. */
    private static final double LIKENESS = 1.02;

    private Replay() {}

    /** The estimate for {@code other}. */
    public static Estimate of(Session other, RunRecord run) {
        List<String> refusals = new ArrayList<>(Coverage.refusals(other, run));
        if (refusals.isEmpty() && !likeItself(run)) {
            refusals.add(
                    "Played for its own session the run does not come out as it was, so its record tells too little of"
                            + " this drive.");
        }
        if (!refusals.isEmpty()) {
            return new Estimate(
                    Outcome.NO_VERDICT,
                    "No estimate for " + other.title() + ": what the run measured does not cover it. "
                            + refusals.get(0),
                    refusals,
                    List.of());
        }
        Map<Scenario, Verdict> verdicts = new EnumMap<>(Scenario.class);
        for (Scenario scenario : Scenario.values()) {
            verdicts.put(scenario, scenario.judge(other, run));
        }
        Outcome outcome = outcome(verdicts);
        Optional<String> bar = outcome == Outcome.PASS ? Coverage.bar(other, run) : Optional.empty();
        return bar.map(why -> new Estimate(
                        Outcome.NO_VERDICT,
                        "Estimated from a run for " + run.session().title() + ", not measured: whether this drive"
                                + " carries " + other.title() + " cannot be told. " + why,
                        List.of(),
                        figures(verdicts)))
                .orElseGet(() -> new Estimate(outcome, sentence(other, run, outcome), List.of(), figures(verdicts)));
    }

    private static Outcome outcome(Map<Scenario, Verdict> verdicts) {
        boolean pass = true;
        boolean fail = true;
        for (Map.Entry<Scenario, Verdict> each : verdicts.entrySet()) {
            Outcome said = each.getValue().outcome();
            pass &= said == Outcome.PASS;
            fail &= each.getKey().cautious || said == Outcome.FAIL;
        }
        return pass ? Outcome.PASS : fail ? Outcome.FAIL : Outcome.NO_VERDICT;
    }

    /** Whether the cautious replay of the run's own session is no rosier than the run, and the hopeful one no darker. */
    private static boolean likeItself(RunRecord run) {
        for (PhaseFacts take : Coverage.takes(run)) {
            Playing cautious = Scenario.CAUTIOUS_BY_THE_CLOCK.play(run.session(), run, take);
            if (cautious.peakMs() * LIKENESS < take.peakBacklogMs()
                    || cautious.busyFraction() * LIKENESS + 0.001 < take.busyFraction()) {
                return false;
            }
        }
        return true;
    }

    private static String sentence(Session other, RunRecord run, Outcome outcome) {
        String from = "Estimated from a run for " + run.session().title() + ", not measured: ";
        return from
                + switch (outcome) {
                    case PASS -> "this drive would probably carry " + other.title() + ". Run it to be sure.";
                    case FAIL -> "this drive would probably not carry " + other.title() + ".";
                    case NO_VERDICT ->
                        "whether this drive carries " + other.title() + " depends on timing: run a real test.";
                };
    }

    private static List<Figure> figures(Map<Scenario, Verdict> verdicts) {
        List<Figure> figures = new ArrayList<>();
        List<Verdict> cautious = of(verdicts, true);
        List<Verdict> hopeful = of(verdicts, false);
        for (Criterion criterion : cautious.get(0).criteria()) {
            if (REPLAYED.stream().anyMatch(criterion::is)) {
                Criterion worst = pick(cautious, criterion.id(), false);
                Criterion best = pick(hopeful, criterion.id(), true);
                figures.add(new Figure(
                        criterion.id(),
                        criterion.needed(),
                        best.measured(),
                        worst.measured(),
                        best.met(),
                        worst.met()));
            }
        }
        return figures;
    }

    private static List<Verdict> of(Map<Scenario, Verdict> verdicts, boolean cautious) {
        return verdicts.entrySet().stream()
                .filter(each -> each.getKey().cautious == cautious)
                .map(Map.Entry::getValue)
                .toList();
    }

    private static Criterion pick(List<Verdict> verdicts, String id, boolean best) {
        Comparator<Criterion> byMerit = Comparator.comparingInt((Criterion criterion) -> merit(criterion.met()))
                .thenComparingDouble(criterion -> margin(criterion.margin()));
        return verdicts.stream()
                .flatMap(verdict -> verdict.criteria().stream())
                .filter(criterion -> criterion.id().equals(id))
                .max(best ? byMerit : byMerit.reversed())
                .orElseThrow();
    }

    private static int merit(@Nullable Boolean met) {
        return met == null ? 1 : met ? 2 : 0;
    }

    private static double margin(@Nullable Double margin) {
        return margin == null ? 0 : margin;
    }
}
