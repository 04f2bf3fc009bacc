package tracksoak.bench.climb;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntPredicate;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The climb as a step function, with scripted answers. What is expected follows from the script alone. */
class SearchTest {

    private final List<Observation> log = new ArrayList<>();

    /** A drive as the search sees it. */
    private static final class Script {
        IntPredicate takeCarries = rung -> true;
        IntPredicate takeKeeps = rung -> true;
        IntPredicate checkCarries = rung -> true;
        IntPredicate checkKeeps = rung -> true;

        static Script of(int margin, int loss) {
            Script script = new Script();
            script.takeCarries = rung -> rung <= margin;
            script.takeKeeps = rung -> rung <= loss;
            script.checkCarries = script.takeCarries;
            script.checkKeeps = script.takeKeeps;
            return script;
        }

        Observation tell(Decision.Look look) {
            boolean take = look.kind() == Observation.Kind.TAKE;
            boolean carried = (take ? takeCarries : checkCarries).test(look.rung());
            return new Observation(
                    look.kind(), look.rung(), carried, carried || (take ? takeKeeps : checkKeeps).test(look.rung()));
        }
    }

    private Decision.End climb(Rules rules, Script script) {
        Search search = new Search(rules);
        log.clear();
        while (search.next(log) instanceof Decision.Look look) {
            assertThat(look.rung()).isBetween(rules.least(), rules.most());
            log.add(script.tell(look));
            assertThat(log).as("no end in sight").hasSizeLessThan(200);
        }
        return (Decision.End) search.next(log);
    }

    private static Rules rules(int most, int start) {
        return new Rules(1, most, start, start, true, false, false, 3);
    }

    private long count(Observation.Kind kind) {
        return log.stream().filter(seen -> seen.kind() == kind).count();
    }

    @ParameterizedTest
    @CsvSource({"24, 38, 24", "24, 38, 1", "24, 38, 64", "1, 1, 10", "63, 64, 2", "7, 50, 30"})
    void findsBothEdgesFromAnyStartAndConfirmsEachOnce(int margin, int loss, int start) {
        Decision.End end = climb(rules(64, start), Script.of(margin, loss));
        assertThat(end.margin()).isEqualTo(new Edge(Edge.How.CONFIRMED, margin, margin + 1));
        assertThat(end.loss()).isEqualTo(new Edge(Edge.How.CONFIRMED, loss, loss == 64 ? 0 : loss + 1));
        assertThat(count(Observation.Kind.CHECK)).isEqualTo(margin == loss ? 1 : 2);
        assertThat(log).doesNotHaveDuplicates();
    }

    /** A guess that is right costs two takes and a check; halving from nothing would cost ten takes. */
    @Test
    void isQuickWhereTheGuessIsGood() {
        climb(new Rules(1, 1024, 24, 24, false, false, false, 3), Script.of(24, 38));
        assertThat(log)
                .containsExactly(
                        new Observation(Observation.Kind.TAKE, 24, true, true),
                        new Observation(Observation.Kind.TAKE, 25, false, true),
                        new Observation(Observation.Kind.CHECK, 24, true, true));
    }

    /** Doubling steps and halving: at most 2 log2 of the distance, and the looks next to the edge. */
    @Test
    void isNeverSlow() {
        for (int margin = 1; margin <= 1023; margin += 7) {
            climb(new Rules(1, 1024, 40, 40, false, false, false, 3), Script.of(margin, 1024));
            assertThat(count(Observation.Kind.TAKE))
                    .as("takes to find %d", margin)
                    .isLessThanOrEqualTo(2 * 10 + 2);
        }
    }

    @Test
    void stepsDownUntilACheckHolds() {
        Script script = Script.of(24, 40);
        script.checkCarries = rung -> rung <= 17;
        script.checkKeeps = rung -> rung <= 38;
        Decision.End end = climb(rules(64, 20), script);
        assertThat(end.margin()).isEqualTo(new Edge(Edge.How.CONFIRMED, 17, 18));
        assertThat(end.loss()).isEqualTo(new Edge(Edge.How.CONFIRMED, 38, 39));
    }

    /** A stall longer than a short take, longer than the buffer at any number of tracks: nothing is confirmed. */
    @Test
    void saysSoWhereNothingCanBeConfirmed() {
        Script script = Script.of(24, 40);
        script.checkCarries = rung -> false;
        script.checkKeeps = rung -> false;
        Decision.End end = climb(rules(64, 20), script);
        assertThat(end.margin()).isEqualTo(new Edge(Edge.How.NONE, 0, 1));
        assertThat(end.loss()).isEqualTo(new Edge(Edge.How.NONE, 0, 1));
        assertThat(count(Observation.Kind.CHECK)).isLessThan(16);
    }

    @Test
    void aTakeThatMissesAtTheFirstRungNeedsNoCheck() {
        Decision.End end = climb(rules(64, 20), Script.of(0, 0));
        assertThat(end.margin().how()).isEqualTo(Edge.How.NONE);
        assertThat(count(Observation.Kind.CHECK)).isZero();
    }

    @Test
    void theTopOfTheLadderIsAnAnswerWithNothingAbove() {
        Decision.End end = climb(rules(64, 20), Script.of(64, 64));
        assertThat(end.margin()).isEqualTo(new Edge(Edge.How.CONFIRMED, 64, 0));
        assertThat(end.loss()).isEqualTo(new Edge(Edge.How.CONFIRMED, 64, 0));
    }

    @Test
    void withProofAboveTakesThatWereTooHarshAreCorrected() {
        Script script = Script.of(20, 30);
        script.checkCarries = rung -> rung <= 24;
        script.checkKeeps = rung -> rung <= 38;
        Decision.End end = climb(new Rules(1, 64, 20, 20, true, true, false, 3), script);
        assertThat(end.margin()).isEqualTo(new Edge(Edge.How.CONFIRMED, 24, 25));
        assertThat(end.loss()).isEqualTo(new Edge(Edge.How.CONFIRMED, 38, 39));
        assertThat(log)
                .contains(
                        new Observation(Observation.Kind.CHECK, 25, false, true),
                        new Observation(Observation.Kind.CHECK, 39, false, false));
    }

    @Test
    void aLookThatCameToNothingIsRepeatedAndThenGivenUp() {
        Search search = new Search(new Rules(1, 64, 20, 20, false, false, false, 3));
        Observation vain = new Observation(Observation.Kind.TAKE, 20, null, null);
        assertThat(search.next(List.of())).isEqualTo(new Decision.Look(Observation.Kind.TAKE, 20));
        assertThat(search.next(List.of(vain))).isEqualTo(new Decision.Look(Observation.Kind.TAKE, 20));
        assertThat(search.next(List.of(vain, vain))).isEqualTo(new Decision.Look(Observation.Kind.TAKE, 20));
        assertThat(search.next(List.of(vain, vain, vain)))
                .isEqualTo(new Decision.End(new Edge(Edge.How.UNSURE, 20, 0), new Edge(Edge.How.NOT_ASKED, 0, 0)));
        assertThat(search.next(List.of(vain, vain, new Observation(Observation.Kind.TAKE, 20, true, true))))
                .isEqualTo(new Decision.Look(Observation.Kind.TAKE, 21));
    }

    @Test
    void aLookThatWouldComeToNothingAgainIsNotRepeated() {
        Search search = new Search(new Rules(1, 64, 20, 20, true, true, false, 3));
        List<Observation> seen = List.of(
                new Observation(Observation.Kind.TAKE, 20, true, true),
                new Observation(Observation.Kind.TAKE, 21, false, false),
                new Observation(Observation.Kind.CHECK, 20, null, null, "The fill came to its cap."));
        assertThat(search.next(seen))
                .isEqualTo(new Decision.End(new Edge(Edge.How.UNSURE, 20, 0), new Edge(Edge.How.UNSURE, 20, 0)));
        assertThat(search.left(seen)).isEqualTo(new Search.Left(0, 0));
        List<Observation> mayPass = new ArrayList<>(seen.subList(0, 2));
        mayPass.add(new Observation(Observation.Kind.CHECK, 20, null, null));
        assertThat(search.next(mayPass)).isEqualTo(new Decision.Look(Observation.Kind.CHECK, 20));
    }

    @Test
    void aNumberConfirmedStaysWhereOnlyTheOtherQuestionCannotBeTold() {
        Search search = new Search(new Rules(1, 64, 20, 20, true, false, false, 1));
        List<Observation> seen = List.of(
                new Observation(Observation.Kind.TAKE, 20, true, true),
                new Observation(Observation.Kind.TAKE, 21, false, null),
                new Observation(Observation.Kind.CHECK, 20, true, true));
        Decision.End end = (Decision.End) search.next(seen);
        assertThat(end.margin()).isEqualTo(new Edge(Edge.How.CONFIRMED, 20, 21));
        assertThat(end.loss()).isEqualTo(new Edge(Edge.How.UNSURE, 21, 0));
    }

    @Test
    void weakSpotsBelowAreNeverJumpedOver() {
        Script script = Script.of(40, 40);
        script.takeCarries = rung -> rung <= 40 && rung != 20;
        script.checkCarries = script.takeCarries;
        Decision.End end = climb(rules(64, 20), script);
        assertThat(end.margin()).isEqualTo(new Edge(Edge.How.CONFIRMED, 19, 20));
    }

    /** Whatever a drive answers, monotone or not: it ends, and an answer is a rung at which a check held. */
    /** A drive that carries the rates above and not the one below them is not said to carry more than what lies under it. */
    @Test
    void oneByOneNothingFollowsFromAHigherRung() {
        Script script = Script.of(6, 8);
        script.takeCarries = rung -> rung <= 6 && rung != 3;
        Rules rules = new Rules(1, 8, 5, 5, false, false, true, 3);
        Decision.End end = climb(rules, script);
        assertThat(end.margin()).isEqualTo(new Edge(Edge.How.CONFIRMED, 2, 3));
        assertThat(log.stream()
                        .filter(seen -> seen.kind() == Observation.Kind.TAKE)
                        .map(Observation::rung))
                .containsExactly(1, 2, 3);
        script.takeCarries = rung -> rung <= 6;
        script.checkCarries = rung -> rung <= 4;
        assertThat(climb(rules, script).margin()).isEqualTo(new Edge(Edge.How.CONFIRMED, 4, 5));
        assertThat(log.stream()
                        .filter(seen -> seen.kind() == Observation.Kind.CHECK)
                        .map(Observation::rung))
                .containsExactly(6, 5, 4);
    }

    @Test
    void alwaysEndsAndOnlyWithWhatACheckHeld() {
        long firstSeed = 40_260_000L;
        for (long seed = firstSeed; seed < firstSeed + 10_000; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            int most = 1 + random.nextInt(40);
            int start = random.nextInt(60) - 10;
            Rules rules = new Rules(
                    1,
                    most,
                    start,
                    random.nextInt(50),
                    random.nextBoolean(),
                    random.nextBoolean(),
                    random.nextInt(4) == 0,
                    1 + random.nextInt(3));
            int edge = random.nextInt(most + 1);
            int noise = random.nextInt(most + 1);
            boolean mayFail = random.nextInt(3) == 0;
            Search search = new Search(rules);
            List<Observation> seen = new ArrayList<>();
            while (search.next(seen) instanceof Decision.Look look) {
                seen.add(answer(look, edge, noise, mayFail, random));
                assertThat(seen).as("seed " + seed).hasSizeLessThan(400);
            }
            Decision.End end = (Decision.End) search.next(seen);
            confirmed("seed " + seed, end.margin(), Goal.MARGIN, seen, rules);
            confirmed("seed " + seed, end.loss(), Goal.LOSS, seen, rules);
        }
    }

    private static Observation answer(
            Decision.Look look, int edge, int noise, boolean mayFail, SplittableRandom random) {
        Boolean carried = look.rung() + random.nextInt(noise + 1) <= edge;
        Boolean kept = carried || random.nextInt(noise + 2) > 0;
        if (mayFail && random.nextInt(4) == 0) {
            return new Observation(look.kind(), look.rung(), null, random.nextBoolean() ? null : kept);
        }
        return new Observation(look.kind(), look.rung(), carried, kept);
    }

    private static void confirmed(String seed, Edge edge, Goal goal, List<Observation> seen, Rules rules) {
        if (edge.how() != Edge.How.CONFIRMED) {
            return;
        }
        assertThat(answer(seen, Observation.Kind.CHECK, edge.rung(), goal))
                .as(seed)
                .isTrue();
        if (edge.above() == 0) {
            assertThat(edge.rung()).as(seed).isEqualTo(rules.most());
        } else {
            assertThat(edge.above()).as(seed).isEqualTo(edge.rung() + 1);
            boolean check = Boolean.FALSE.equals(answer(seen, Observation.Kind.CHECK, edge.above(), goal));
            boolean take = Boolean.FALSE.equals(answer(seen, Observation.Kind.TAKE, edge.above(), goal));
            assertThat(check || (take && !rules.proveAbove())).as(seed).isTrue();
        }
    }

    private static @Nullable Boolean answer(List<Observation> seen, Observation.Kind kind, int rung, Goal goal) {
        Boolean last = null;
        for (Observation each : seen) {
            Boolean answer = each.to(goal);
            if (each.kind() == kind && each.rung() == rung && answer != null) {
                last = answer;
            }
        }
        return last;
    }

    @Test
    void saysHowMuchIsLeft() {
        Search search = new Search(rules(64, 20));
        assertThat(search.left(List.of())).isEqualTo(new Search.Left(8, 2));
        climb(rules(64, 20), Script.of(24, 38));
        assertThat(search.left(log)).isEqualTo(new Search.Left(0, 0));
        for (int done = 1; done < log.size(); done++) {
            Search.Left left = search.left(log.subList(0, done));
            assertThat(left.takes() + left.checks()).as("after %d", done).isPositive();
        }
    }

    @Test
    void refusesWhatCannotBeClimbed() {
        assertThatThrownBy(() -> new Rules(1, 0, 1, 1, true, true, false, 3))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Observation(Observation.Kind.TAKE, 3, true, false))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("rung 3");
    }
}
