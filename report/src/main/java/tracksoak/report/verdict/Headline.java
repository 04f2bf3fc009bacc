package tracksoak.report.verdict;

import java.util.List;
import java.util.Set;
import tracksoak.report.record.Criterion;

/** The one sentence a sound engineer acts on. */
final class Headline {

    /** What can be put right without another drive. */
    private static final Set<String> MENDABLE = Set.of("room", "format", "port");

    private Headline() {}

    static String pass(Evidence e, List<Criterion> criteria) {
        String title = e.session.title();
        String shortened = e.run.plan().shortened()
                ? " This was a shortened " + e.run.plan().name() + ", which never counts as the full one."
                : "";
        return switch (e.run.plan().name()) {
            case "line-check" ->
                "Nothing is obviously wrong for " + title + "; that is not enough to trust the drive with a show."
                        + shortened;
            case "full-show" ->
                "Trust this drive for " + title + ": " + least(criteria) + " Its room is proven." + shortened;
            case "sound-check" ->
                (shortened.isEmpty() ? "Trust this drive for " : "So far this drive carries ") + title + ": "
                        + least(criteria) + shortened;
            default -> "This drive carries " + title + ": " + least(criteria) + shortened;
        };
    }

    static String fail(Evidence e, List<Criterion> missed) {
        boolean mendable = missed.stream().allMatch(criterion -> MENDABLE.contains(criterion.id()));
        Criterion first = missed.stream()
                .filter(criterion -> mendable || !MENDABLE.contains(criterion.id()))
                .findFirst()
                .orElseThrow();
        return (mendable ? "Not as it stands for " : "Leave this drive at home for ") + e.session.title() + ". "
                + first.sentence();
    }

    static String none(Evidence e, List<String> reasons) {
        return "No verdict for " + e.session.title() + ". " + reasons.get(0);
    }

    private static String least(List<Criterion> criteria) {
        double least = Double.POSITIVE_INFINITY;
        String asked = "";
        for (Criterion criterion : criteria) {
            boolean margin =
                    criterion.id().equals("buffer-margin") || criterion.id().equals("rate-margin");
            Double have = criterion.margin();
            if (margin && have != null && have < least) {
                least = have;
                asked = criterion.needed();
            }
        }
        return "no audio was lost"
                + (asked.isEmpty()
                        ? "."
                        : ", and the least margin was " + Units.factor(least) + " (" + asked + " asked).");
    }
}
