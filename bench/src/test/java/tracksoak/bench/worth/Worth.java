package tracksoak.bench.worth;

import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.LongStream;
import tracksoak.bench.oracle.LoopRun;
import tracksoak.bench.oracle.WholeRun;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
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
     * @param hours time the plan took on the drive, rests included
     * @param allowedHours time to write and read the session's bytes as fast as the fill was, and 25 min
     */
    record Case(
            Candidate candidate, Outcome outcome, String headline, double hours, double allowedHours, Shows shows) {}

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
        Plan suited = plan.apply(candidate.session())
                .on(candidate
                        .drive()
                        .plug(new VirtualClock(0), LoopRun.HANG_LIMIT_NS)
                        .facts());
        RunRecord record = WholeRun.of(candidate.session(), candidate.drive(), suited);
        Outcome outcome = Objects.requireNonNull(record.verdict()).outcome();
        double seconds = record.phases().stream()
                .mapToDouble(phase -> phase.seconds() + restS(phase))
                .sum();
        return new Case(
                candidate,
                outcome,
                record.verdict().sentence(),
                seconds / 3600,
                allowedS(candidate.session(), record) / 3600,
                Shows.of(candidate, SHOWS, outcome == Outcome.PASS));
    }

    private static double restS(PhaseFacts phase) {
        return phase.start() == null ? 0 : phase.start().idleBeforeS();
    }

    private static double allowedS(Session session, RunRecord record) {
        double bytes = (double) session.bytesPerSecond() * session.lengthS();
        return 1500 + secondsFor(bytes, record, PhaseKind.FILL) + secondsFor(bytes, record, PhaseKind.READ_BACK);
    }

    private static double secondsFor(double bytes, RunRecord record, PhaseKind kind) {
        return record.phases().stream()
                .filter(phase -> phase.kind() == kind && phase.bytes() > 0)
                .findFirst()
                .map(phase -> bytes * phase.seconds() / phase.bytes())
                .orElse(0.0);
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
        return String.format(
                Locale.ROOT,
                "worth: %s, seeds %d to %d: %s; after PASS %d of %d shows lost audio (%.1f %%), on %d drives, on %d in every show; "
                        + "good drives %d: PASS %d, NO VERDICT %d, FAIL %d; median time of a good drive %.2f h, %.2f h more than allowed; of all %.0f h; "
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
                medianOfGood(Case::hours),
                medianOfGood(each -> each.hours() - each.allowedHours()),
                cases.stream().mapToDouble(Case::hours).sum(),
                causes);
    }

    /** Median over the good drives, in h; 0 if there is none. */
    double medianOfGood(ToDoubleFunction<Case> hours) {
        double[] sorted = cases.stream()
                .filter(each -> each.shows().good())
                .mapToDouble(hours)
                .sorted()
                .toArray();
        return sorted.length == 0 ? 0 : sorted[sorted.length / 2];
    }
}
