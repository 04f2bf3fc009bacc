package tracksoak.report.verdict;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PlanName;

/** The one sentence a sound engineer acts on. */
final class Headline {

    /** What can be put right without another drive. */
    private static final Set<CriterionId> MENDABLE = EnumSet.of(CriterionId.ROOM, CriterionId.PORT);

    private Headline() {}

    static String pass(JudgedRun run, List<Criterion> criteria) {
        String title = run.session.title();
        String shortened = run.record.plan().shortened()
                ? " This was a shortened " + run.record.plan().name() + ", which never counts as the full one."
                : "";
        if (run.record.plan().is(PlanName.LINE_CHECK)) {
            return "Nothing is obviously wrong for " + title + "; that is not enough to trust the drive with a show."
                    + shortened;
        }
        String carries = !run.record.plan().trusts()
                ? "This drive carries "
                : !shortened.isEmpty()
                        ? "So far this drive carries "
                        : run.record.plan().is(PlanName.FULL_SHOW)
                                ? "Trust this drive for "
                                : "This drive is cleared for ";
        String proven = run.record.plan().is(PlanName.FULL_SHOW) ? proven(run) : "";
        return carries + title + ": " + least(run, criteria) + OpenThreats.settledInShort(run) + proven + shortened;
    }

    static String fail(JudgedRun run, List<Criterion> missed) {
        boolean mendable = missed.stream().allMatch(Headline::mendable);
        Criterion first = missed.stream()
                .filter(criterion -> mendable || !mendable(criterion))
                .findFirst()
                .orElseThrow();
        return (mendable
                        ? "Not as it stands for "
                        : run.ioMode() == IoMode.SIMULATED
                                ? "This drive does not carry "
                                : "Leave this drive at home for ")
                + run.session.title() + ". "
                + first.sentence();
    }

    static String none(JudgedRun run, List<String> reasons) {
        return "No verdict for " + run.session.title() + ". " + reasons.get(0);
    }

    private static boolean mendable(Criterion criterion) {
        return MENDABLE.stream().anyMatch(criterion::is);
    }

    private static String proven(JudgedRun run) {
        Covered covered = Covered.of(run);
        return covered == null || !run.filledWhole() ? "" : " Its free room is proven: " + covered.words() + ".";
    }

    private static String least(JudgedRun run, List<Criterion> criteria) {
        double least = Double.POSITIVE_INFINITY;
        String asked = "";
        for (Criterion criterion : criteria) {
            boolean margin = criterion.is(CriterionId.BUFFER_MARGIN)
                    || criterion.is(CriterionId.RATE_MARGIN)
                    || (run.plays() && criterion.is(CriterionId.PLAYBACK));
            Double have = criterion.margin();
            if (margin && have != null && have < least) {
                least = have;
                asked = criterion.needed();
            }
        }
        String good = switch (run.session.kind()) {
            case RECORDING -> "no audio was lost";
            case PLAYBACK -> "no track fell silent";
            case MIXDOWN -> "no track fell silent and no audio of the mix was lost";
            case ARCHIVE -> "all that was copied on came back as it was";
        };
        return good
                + (asked.isEmpty()
                        ? "."
                        : ", and the smallest margin was " + Units.factor(least) + " (" + asked + " needed).");
    }
}
