package tracksoak.bench.worth;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.LongStream;
import tracksoak.bench.oracle.WholeRun;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.KebabCase;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict.Outcome;

/** What the verdicts of one plan are worth over a population: counts only, no opinion. */
record Worth(String plan, long firstSeed, List<Case> cases) {

    /** Shows played on every drive that passed. */
    static final int SHOWS = 3;

    /**
     * One drive.
     *
     * @param headline what the run says
     * @param hours time the plan took on the drive
     */
    record Case(Candidate candidate, Outcome outcome, String headline, double hours, Shows shows) {}

    /** Gives the plan to {@code count} drives and plays the shows. */
    static Worth of(Function<Session, Plan> plan, long firstSeed, int count) {
        List<Case> cases = LongStream.range(firstSeed, firstSeed + count)
                .parallel()
                .mapToObj(seed -> tried(Population.of(seed), plan))
                .toList();
        String name =
                KebabCase.of(plan.apply(cases.get(0).candidate().session()).name());
        return new Worth(name, firstSeed, cases);
    }

    private static Case tried(Candidate candidate, Function<Session, Plan> plan) {
        RunRecord record = WholeRun.of(candidate.session(), candidate.drive(), plan.apply(candidate.session()));
        Outcome outcome = Objects.requireNonNull(record.verdict()).outcome();
        double seconds =
                record.phases().stream().mapToDouble(PhaseFacts::seconds).sum();
        return new Case(
                candidate,
                outcome,
                java.util.Objects.requireNonNull(record.verdict()).sentence(),
                seconds / 3600,
                Shows.of(candidate, SHOWS, outcome == Outcome.PASS));
    }

    /** Drives with that outcome. */
    long with(Outcome outcome) {
        return cases.stream().filter(each -> each.outcome() == outcome).count();
    }

    /** Shows played after a PASS. */
    long showsAfterPass() {
        return passed().stream().mapToLong(each -> each.shows().played()).sum();
    }

    /** How many of them lost audio. */
    long lostAfterPass() {
        return passed().stream().mapToLong(each -> each.shows().lost()).sum();
    }

    /** Drives that passed and lost audio in a show at least. */
    long passedAndLost() {
        return passed().stream().filter(each -> each.shows().lost() > 0).count();
    }

    /** Drives that passed and lost audio in every show. */
    long passedAndLostAlways() {
        return passed().stream()
                .filter(each -> each.shows().lost() == each.shows().played())
                .count();
    }

    /** Drives on which every show meets every criterion with its margin. */
    long good() {
        return cases.stream().filter(each -> each.shows().good()).count();
    }

    /** Good drives with that outcome. */
    long good(Outcome outcome) {
        return cases.stream()
                .filter(each -> each.shows().good() && each.outcome() == outcome)
                .count();
    }

    private List<Case> passed() {
        return cases.stream().filter(each -> each.outcome() == Outcome.PASS).toList();
    }

    /** The figures as the documentation has them, with what is behind the losses. */
    String says() {
        Map<Outcome, Long> seen = new EnumMap<>(Outcome.class);
        cases.forEach(each -> seen.merge(each.outcome(), 1L, Long::sum));
        Map<String, Long> causes = new TreeMap<>();
        passed().forEach(each ->
                causes.merge(each.candidate().trouble(), (long) each.shows().lost(), Long::sum));
        causes.values().removeIf(lost -> lost == 0);
        List<Double> hours = new ArrayList<>(cases.stream()
                .filter(each -> each.shows().good())
                .map(Case::hours)
                .toList());
        hours.sort(Comparator.naturalOrder());
        return String.format(
                Locale.ROOT,
                "worth: %s, seeds %d to %d: %s; after PASS %d of %d shows lost audio (%.1f %%), on %d drives, on %d in every show; "
                        + "good drives %d: PASS %d, NO VERDICT %d, FAIL %d; median time of a good drive %.2f h, of all %.0f h; "
                        + "shows lost by trouble %s",
                plan,
                firstSeed,
                firstSeed + cases.size() - 1,
                seen,
                lostAfterPass(),
                showsAfterPass(),
                100.0 * lostAfterPass() / Math.max(1, showsAfterPass()),
                passedAndLost(),
                passedAndLostAlways(),
                good(),
                good(Outcome.PASS),
                good(Outcome.NO_VERDICT),
                good(Outcome.FAIL),
                hours.isEmpty() ? 0 : hours.get(hours.size() / 2),
                cases.stream().mapToDouble(Case::hours).sum(),
                causes);
    }
}
