package tracksoak.report.history;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.report.history.Change.Said;
import tracksoak.report.record.facts.RunRecord;

/**
 * The runs of one drive, and what became of it.
 *
 * @param latest the run asked about
 * @param earlier all others in order of time, also those that cannot be compared
 * @param changes one per figure, in the order of {@link Figure}
 * @param slowness the drive against its own best, null where no run can be compared
 * @param sentence what to know, in one or two plain sentences
 * @param notes what the reader should know besides
 */
public record DriveHistory(
        Past latest,
        List<Past> earlier,
        List<Change> changes,
        @Nullable Slowness slowness,
        String sentence,
        List<String> notes) {

    /** Chance of calling something ageing that is none, over all figures together. */
    public static final double LEVEL = 0.05;

    /** Fewer runs can show no trend: five in falling order have a chance of 1 in 120, four of 1 in 24. */
    public static final int LEAST_RUNS = 5;

    /** Runs closer together than this show heat or wear of a day rather than age, in days (own limit). */
    public static final double LEAST_DAYS = 14;

    /** A figure that changes by no more than this part of its median is said not to change (own limit). */
    public static final double LEAST_CHANGE = 0.01;

    private static final int MOST_REASONS = 3;

    /** Most runs kept of one drive; the latest count. */
    public static final int MOST_RUNS = 500;

    public DriveHistory {
        earlier = List.copyOf(earlier);
        changes = List.copyOf(changes);
        notes = List.copyOf(notes);
    }

    /**
     * Holds a run against earlier ones of the same drive. Those that began later, the run itself and doubles are left out.
     *
     * @param latest the run asked about
     * @param others runs of the same drive in any order
     * @param told what the reader should know of how they were found, one sentence each
     */
    public static DriveHistory of(RunRecord latest, Collection<Past> others, List<String> told) {
        Past now = Past.of(latest, latest);
        Set<Object> seen = new HashSet<>(List.of(now.id()));
        List<Past> earlier = new ArrayList<>(others.stream()
                .filter(past -> past.day() < now.day())
                .sorted(Comparator.comparingDouble(Past::day).thenComparing(Past::id))
                .filter(past -> seen.add(past.id()) && seen.add(past.day()))
                .toList());
        while (earlier.size() > MOST_RUNS) {
            earlier.remove(0);
        }
        List<Past> comparable =
                new ArrayList<>(earlier.stream().filter(Past::comparable).toList());
        comparable.add(now);
        List<Change> changes = new Comparing(latest.session(), now, comparable).changes();
        Slowness slowness =
                comparable.size() < 2 ? null : Slowness.of(now, comparable).orElse(null);
        List<String> notes = new ArrayList<>(told);
        later(now, others).ifPresent(notes::add);
        notes.addAll(notes(now, earlier, comparable));
        return new DriveHistory(now, earlier, changes, slowness, sentence(changes, slowness, comparable), notes);
    }

    /** Runs that can be compared, in order of time, the latest last. */
    public List<Past> comparable() {
        List<Past> all =
                new ArrayList<>(earlier.stream().filter(Past::comparable).toList());
        all.add(latest);
        return List.copyOf(all);
    }

    /** What became of one figure. */
    public Change change(Figure figure) {
        return changes.stream()
                .filter(change -> change.figure() == figure)
                .findFirst()
                .orElseThrow();
    }

    /** Whether any figure gets worse by the test. */
    public boolean ageing() {
        return changes.stream().anyMatch(change -> change.verdict() == Said.WORSE);
    }

    /** Whether the drive has lost more than half of its own best speed. */
    public boolean slow() {
        return slowness != null && slowness.slow();
    }

    /** Whether there is something to know about it before anything else: slow, worse, or other than it was. */
    public boolean warns() {
        return slow()
                || changes.stream()
                        .map(Change::verdict)
                        .anyMatch(said -> said == Said.WORSE || said == Said.APART || said == Said.OTHER);
    }

    private static String sentence(List<Change> changes, @Nullable Slowness slowness, List<Past> comparable) {
        List<String> say = new ArrayList<>();
        if (slowness != null && slowness.slow()) {
            say.add(slowness.sentence());
        }
        for (Figure figure : List.of(Figure.BAD_BLOCKS, Figure.CAPACITY)) {
            first(changes, change -> change.figure() == figure && change.verdict() == Said.OTHER)
                    .ifPresent(say::add);
        }
        Optional<Change> worse = changes.stream()
                .filter(change -> change.verdict() == Said.WORSE)
                .min(Comparator.comparing(Change::leftDays, Comparator.nullsLast(Comparator.naturalOrder())));
        worse.map(Change::sentence).ifPresent(say::add);
        int runs = comparable.size();
        if (runs < 2) {
            say.add("No earlier run of this drive can be compared with this one.");
            return String.join(" ", say);
        }
        boolean alone = say.isEmpty();
        Optional<String> worst = worst(changes, worse.isPresent());
        if (worse.isPresent()) {
            worst.ifPresent(say::add);
        } else if (changes.stream().anyMatch(change -> change.trend() != null || steady(change))) {
            worst.ifPresent(say::add);
            say.add(
                    alone && worst.isEmpty()
                            ? "No change for the worse beyond the usual spread of " + (runs - 1) + " earlier runs."
                            : "No trend for the worse over " + runs + " runs.");
        } else {
            if (runs < LEAST_RUNS) {
                say.add("Trends need " + LEAST_RUNS + " runs, and " + runs + " can be compared.");
            }
            double days = comparable.get(runs - 1).day() - comparable.get(0).day();
            if (runs >= LEAST_RUNS && days < LEAST_DAYS && worst.isPresent()) {
                say.add("No trend can be told: all runs lie within " + DaysInWords.atMost(days)
                        + ", which is too short to tell ageing.");
            }
            say.add(worst.orElseGet(() -> first(
                            changes, change -> change.figure().ages() && change.verdict() == Said.TOO_FEW)
                    .orElse("Trends need runs further apart.")));
        }
        return String.join(" ", say);
    }

    private static boolean steady(Change change) {
        return change.figure().ages() && change.verdict() == Said.NO_CHANGE;
    }

    /** In what this run alone is worse than all earlier ones; by little it is said only where there is no more to say. */
    private static Optional<String> worst(List<Change> changes, boolean onlyApart) {
        List<Change> apart = changes.stream()
                .filter(change -> change.verdict() == Said.APART)
                .toList();
        List<Change> told = !apart.isEmpty() || onlyApart
                ? apart
                : changes.stream().filter(Change::worst).toList();
        if (told.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of("This run is the worst so far"
                + (apart.isEmpty() ? ": " : ", by more than the earlier ones lie apart: ")
                + told.stream().map(Comparing::against).collect(Collectors.joining("; "))
                + (apart.isEmpty()
                        ? "; "
                                + Comparing.byChance(
                                        Objects.requireNonNull(told.get(0).earlier())) + ", in each figure"
                        : "")
                + ".");
    }

    private static Optional<String> first(List<Change> changes, Predicate<Change> which) {
        return changes.stream().filter(which).map(Change::sentence).findFirst();
    }

    /** That runs were left out because of their dates: with a clock that was wrong they may have been made before. */
    private static Optional<String> later(Past now, Collection<Past> others) {
        long later = others.stream()
                .filter(past -> past.day() > now.day() && !past.id().equals(now.id()))
                .map(Past::id)
                .distinct()
                .count();
        return later == 0
                ? Optional.empty()
                : Optional.of(
                        (later == 1 ? "One run of this drive is" : later + " runs of this drive are")
                                + " left out, being dated after this one; made before it, a clock was wrong or the run simulated.");
    }

    private static List<String> notes(Past now, List<Past> earlier, List<Past> comparable) {
        List<String> notes = new ArrayList<>();
        int apart = earlier.size() - (comparable.size() - 1);
        if (apart > 0) {
            notes.add((apart == 1 ? "One earlier run is" : apart + " earlier runs are")
                    + " not compared, being made otherwise: " + otherwise(earlier) + ".");
        }
        if (comparable.stream().anyMatch(past -> !past.system().equals(now.system()))) {
            notes.add("The computer's system was updated between these runs; a driver can make a difference that looks"
                    + " like the drive's.");
        }
        return notes;
    }

    /** The commonest differences. */
    private static String otherwise(List<Past> earlier) {
        Map<String, Long> count = earlier.stream()
                .flatMap(past -> past.differences().stream())
                .collect(Collectors.groupingBy(why -> why, LinkedHashMap::new, Collectors.counting()));
        List<String> why = count.keySet().stream()
                .sorted(Comparator.comparing(count::get, Comparator.reverseOrder()))
                .toList();
        return String.join("; ", why.subList(0, Math.min(MOST_REASONS, why.size())))
                + (why.size() > MOST_REASONS ? "; and more" : "");
    }
}
