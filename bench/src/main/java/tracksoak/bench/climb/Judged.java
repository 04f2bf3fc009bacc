package tracksoak.bench.climb;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.report.record.facts.ClimbStep;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.verdict.Judge;

/** What a run of a climb means for its rung, by the same judge that judges every run. */
final class Judged {

    /** What a take that is not read back cannot show, and need not. */
    private static final Set<CriterionId> NOT_OF_A_TAKE = EnumSet.of(CriterionId.INTACT, CriterionId.PLAYBACK);

    private Judged() {}

    /** A short take: judged with the climb's fill as if it had made it itself. */
    static ClimbStep take(RunRecord run, @Nullable PhaseFacts fill, int at) {
        List<PhaseFacts> phases = new ArrayList<>(run.phases());
        if (fill != null) {
            phases.add(0, fill);
        }
        RunRecord facts = run.withPhases(phases);
        Verdict verdict = Judge.judge(facts);
        List<Criterion> counted = verdict.criteria().stream()
                .filter(criterion -> !passedOver(criterion))
                .toList();
        List<String> passedOver = verdict.criteria().stream()
                .filter(Judged::passedOver)
                .map(Criterion::sentence)
                .toList();
        boolean missed = counted.stream().anyMatch(Criterion::missed);
        List<String> doubts = verdict.reasons().stream()
                .filter(reason -> !passedOver.contains(reason))
                .toList();
        Boolean carried = missed ? Boolean.FALSE : doubts.isEmpty() ? Boolean.TRUE : null;
        return step(
                ClimbStep.Kind.TAKE, run, counted, carried, doubts.isEmpty() || missed, sentence(counted, doubts), at);
    }

    private static boolean passedOver(Criterion criterion) {
        return NOT_OF_A_TAKE.stream().anyMatch(criterion::is);
    }

    /** A sound-check, as it was judged. */
    static ClimbStep check(RunRecord run, int at) {
        Verdict verdict = Objects.requireNonNull(run.verdict());
        Boolean carried = switch (verdict.outcome()) {
            case PASS -> Boolean.TRUE;
            case FAIL -> Boolean.FALSE;
            case NO_VERDICT -> null;
        };
        return step(ClimbStep.Kind.CHECK, run, verdict.criteria(), carried, carried != null, verdict.sentence(), at);
    }

    /** Why another look like this would leave open what it left open; null if it left nothing open, or may not. */
    static @Nullable String lasting(ClimbStep step, RunRecord run) {
        if (step.carried() != null) {
            return null;
        }
        List<String> why = Judge.lasting(run, step.kind() == ClimbStep.Kind.TAKE ? NOT_OF_A_TAKE : Set.of());
        return why.isEmpty() ? null : String.join(" ", why);
    }

    private static ClimbStep step(
            ClimbStep.Kind kind,
            RunRecord run,
            List<Criterion> criteria,
            @Nullable Boolean carried,
            boolean sure,
            String sentence,
            int at) {
        Boolean kept =
                criterion(criteria, CriterionId.LOST_AUDIO).map(Criterion::met).orElse(null);
        return new ClimbStep(
                kind,
                at,
                run.id(),
                run.startedAt(),
                run.phases().stream().mapToDouble(PhaseFacts::seconds).sum(),
                run.phases().stream()
                        .filter(phase -> switch (phase.kind()) {
                            case TAKE, FILL, CLOSE -> true;
                            default -> false;
                        })
                        .mapToLong(PhaseFacts::bytes)
                        .sum(),
                criterion(criteria, CriterionId.BUFFER_MARGIN)
                        .map(Criterion::margin)
                        .orElse(null),
                criterion(criteria, CriterionId.RATE_MARGIN)
                        .map(Criterion::margin)
                        .orElse(null),
                run.phases().stream().mapToDouble(PhaseFacts::lostMs).max().orElse(0),
                run.phases().stream()
                        .mapToDouble(PhaseFacts::peakBacklogMs)
                        .max()
                        .orElse(0),
                criterion(criteria, CriterionId.LONGEST_STALL)
                        .map(Criterion::measuredValue)
                        .orElse(0.0),
                carried,
                // a loss is proven by being seen; that there was none is not, where the drive was not asked for all
                (Boolean.TRUE.equals(kept) && !sure) ? null : kept,
                criteria.stream().filter(Criterion::missed).map(Criterion::id).toList(),
                sentence);
    }

    private static String sentence(List<Criterion> criteria, List<String> doubts) {
        return criteria.stream()
                .filter(Criterion::missed)
                .map(Criterion::sentence)
                .findFirst()
                .orElse(doubts.isEmpty() ? "Every margin was met." : doubts.get(0));
    }

    private static Optional<Criterion> criterion(List<Criterion> criteria, CriterionId id) {
        return criteria.stream().filter(each -> each.is(id)).findFirst();
    }

    /** Whether the drive stopped answering for good: nothing more can be asked of it. */
    static boolean stopped(RunRecord run) {
        return run.phases().stream()
                .map(PhaseFacts::fault)
                .filter(Objects::nonNull)
                .map(Fault::kind)
                .anyMatch(Fault.Kind::ofTheDrive);
    }
}
