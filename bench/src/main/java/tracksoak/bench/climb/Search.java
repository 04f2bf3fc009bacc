package tracksoak.bench.climb;

import java.util.ArrayList;
import java.util.List;
import java.util.NavigableMap;
import java.util.OptionalInt;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * The climb as a pure step function: from all that was told so far to the next move. Short takes find where the edge
 * seems to be; checks then confirm it, step down from it until one holds and, where asked, step up. Always the same log
 * gives the same move. Any thread.
 *
 * <p>A rung is an answer only if a check held there. It ends: every move asks something not asked before, or repeats a
 * question that came to nothing, and that at most {@code patience} times, or not at all where it would come to nothing
 * again.
 */
public final class Search {

    /** Takes of a search whose edge is not yet between two of them; only for the time left. */
    private static final int USUAL_TAKES = 4;

    private final Rules rules;

    public Search(Rules rules) {
        this.rules = rules;
    }

    /** Looks still ahead, as far as can be told. */
    public record Left(int takes, int checks) {}

    /** What to do after {@code log}. */
    public Decision next(List<Observation> log) {
        List<Goal> goals = rules.askLoss() ? List.of(Goal.MARGIN, Goal.LOSS) : List.of(Goal.MARGIN);
        for (Observation.Kind kind : Observation.Kind.values()) {
            for (Goal goal : goals) {
                OptionalInt rung = unsure(log, goal) ? OptionalInt.empty() : wanted(log, goal, kind);
                if (rung.isPresent()) {
                    return new Decision.Look(kind, rung.getAsInt());
                }
            }
        }
        return new Decision.End(
                edge(log, Goal.MARGIN), rules.askLoss() ? edge(log, Goal.LOSS) : new Edge(Edge.How.NOT_ASKED, 0, 0));
    }

    /** How much is still ahead after {@code log}. */
    public Left left(List<Observation> log) {
        int takes = 0;
        int checks = 0;
        for (Goal goal : rules.askLoss() ? Goal.values() : new Goal[] {Goal.MARGIN}) {
            if (unsure(log, goal)) {
                continue;
            }
            Bracket byTakes = takes(log, goal);
            boolean open = byTakes.holds() < rules.least() || byTakes.fails() > rules.most();
            takes += byTakes.closed() ? 0 : open ? USUAL_TAKES : bits(byTakes);
            Bracket byChecks = checks(log, goal);
            boolean begun = known(log, goal, Observation.Kind.CHECK).isEmpty();
            checks += begun || byChecks.fails() > rules.most()
                    ? byChecks.closed() ? 0 : rules.proveAbove() ? 2 : 1
                    : byChecks.closed() ? 0 : bits(byChecks);
        }
        return new Left(takes, checks);
    }

    private static int bits(Bracket bracket) {
        return 32 - Integer.numberOfLeadingZeros(Math.max(1, bracket.fails() - bracket.holds() - 1));
    }

    private OptionalInt wanted(List<Observation> log, Goal goal, Observation.Kind kind) {
        if (kind == Observation.Kind.TAKE) {
            Bracket byTakes = takes(log, goal);
            return rules.oneByOne()
                    ? byTakes.neighbour(byTakes.holds() + 1)
                    : byTakes.next(start(log, goal), rules.least(), rules.most());
        }
        Bracket byChecks = checks(log, goal);
        return rules.oneByOne()
                ? byChecks.neighbour(candidate(log, goal))
                : byChecks.next(candidate(log, goal), rules.least(), rules.most());
    }

    private int start(List<Observation> log, Goal goal) {
        return goal == Goal.MARGIN
                ? rules.start()
                : Math.max(rules.lossStart(), takes(log, Goal.MARGIN).holds());
    }

    private int candidate(List<Observation> log, Goal goal) {
        return Math.max(rules.least(), takes(log, goal).holds());
    }

    private Bracket takes(List<Observation> log, Goal goal) {
        return Bracket.of(known(log, goal, Observation.Kind.TAKE), rules.least(), rules.most());
    }

    private Bracket checks(List<Observation> log, Goal goal) {
        NavigableMap<Integer, Boolean> known = known(log, goal, Observation.Kind.CHECK);
        int missed = takes(log, goal).fails();
        if (!rules.proveAbove() && missed <= rules.most()) {
            known.putIfAbsent(missed, false);
        }
        return Bracket.of(known, rules.least(), rules.most());
    }

    private static NavigableMap<Integer, Boolean> known(List<Observation> log, Goal goal, Observation.Kind kind) {
        NavigableMap<Integer, Boolean> known = new TreeMap<>();
        for (Observation seen : log) {
            Boolean answer = seen.to(goal);
            if (seen.kind() == kind && answer != null) {
                known.put(seen.rung(), answer);
            }
        }
        return known;
    }

    private boolean unsure(List<Observation> log, Goal goal) {
        return stuck(log, goal) != null;
    }

    /** The rung that could not be told in as many looks as patience allows, or never will be. */
    private @Nullable Integer stuck(List<Observation> log, Goal goal) {
        List<Observation> vain = new ArrayList<>();
        for (Observation seen : log) {
            if (seen.to(goal) != null) {
                continue;
            }
            vain.add(seen);
            long times = vain.stream()
                    .filter(each -> each.kind() == seen.kind() && each.rung() == seen.rung())
                    .count();
            if ((seen.lasting() != null || times >= rules.patience())
                    && !known(log, goal, seen.kind()).containsKey(seen.rung())) {
                return seen.rung();
            }
        }
        return null;
    }

    private Edge edge(List<Observation> log, Goal goal) {
        Integer stuck = stuck(log, goal);
        if (stuck != null) {
            return new Edge(Edge.How.UNSURE, stuck, 0);
        }
        Bracket found = checks(log, goal);
        int above = found.fails() > rules.most() ? 0 : found.fails();
        return found.holds() < rules.least()
                ? new Edge(Edge.How.NONE, 0, above)
                : new Edge(Edge.How.CONFIRMED, found.holds(), above);
    }
}
