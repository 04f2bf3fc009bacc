package tracksoak.report.history;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
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

    private static String sentence(List<Change> changes, @Nullable Slowness slowness, List<Past> comparable) {
        List<String> say = new ArrayList<>();
        if (slowness != null && slowness.slow()) {
            say.add(slowness.sentence());
        }
        for (Figure figure : List.of(Figure.BAD_BLOCKS, Figure.CAPACITY)) {
            first(changes, change -> change.figure() == figure && change.verdict() == Said.OTHER)
                    .ifPresent(say::add);
        }
        Optional<String> worse = first(changes, change -> change.verdict() == Said.WORSE);
        worse.ifPresent(say::add);
        if (comparable.size() < 2) {
            say.add("No earlier run of this drive can be compared with this one.");
        } else if (worse.isEmpty()) {
            boolean tested =
                    changes.stream().anyMatch(change -> change.figure().ages() && change.verdict() == Said.NO_CHANGE);
            say.add(
                    tested
                            ? "No change for the worse beyond the usual spread of " + (comparable.size() - 1)
                                    + " earlier runs."
                            : (comparable.size() < LEAST_RUNS
                                            ? "Trends need " + LEAST_RUNS + " runs, and " + comparable.size()
                                                    + " can be compared. "
                                            : "")
                                    + first(
                                                    changes,
                                                    change ->
                                                            change.figure().ages() && change.verdict() == Said.TOO_FEW)
                                            .orElse("Trends need runs further apart."));
        }
        return String.join(" ", say);
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
                    + " not compared, as something else was done or another way; the table says what.");
        }
        if (comparable.stream().anyMatch(past -> !past.computer().equals(now.computer()))) {
            notes.add("Not all runs were made on the same computer; a port or a driver can make a difference that looks"
                    + " like the drive's.");
        }
        return notes;
    }
}
