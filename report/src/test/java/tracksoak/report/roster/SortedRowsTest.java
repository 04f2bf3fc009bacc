package tracksoak.report.roster;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.Claim;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.LastRun;
import tracksoak.report.roster.standing.Mark;
import tracksoak.report.roster.standing.RecordedSession;
import tracksoak.report.roster.standing.Standing;

/** Lists that are carried on from version to version are those that come of sorting all anew. */
class SortedRowsTest {

    private static final int STEPS = 150;
    private static final List<BoardQuery.Sort> SORTS = List.of(BoardQuery.Sort.values());
    private static final List<RecordedSession> TERMS = Stream.of(4, 8, 16, 32, 64)
            .map(tracks -> RecordedSession.of(RunSketch.session("tracks-" + tracks, tracks)))
            .toList();

    private final Map<String, DriveState> states = new HashMap<>();
    private Instant now = Shows.START;
    private int names;
    private Random random = new Random(0);

    /** Three seeds in each build, the others at night. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void carriedOnOrSortedAnewTheyAreTheSame(long seed) {
        carryOn(seed);
    }

    @ParameterizedTest
    @ValueSource(longs = {4, 5, 6, 7, 8, 9, 10})
    @Tag("nightly")
    void carriedOnOrSortedAnewTheyAreTheSameAllNight(long seed) {
        carryOn(seed);
    }

    private void carryOn(long seed) {
        random = Seeded.random(seed);
        IntStream.range(0, 60).forEach(i -> states.put(id(i), state(id(i), 2)));
        RosterView view = RosterView.of(0, states.values(), TERMS.subList(0, 2));
        for (int step = 1; step <= STEPS; step++) {
            int known = Math.min(TERMS.size(), 2 + step / 30);
            List<RecordedSession> terms = TERMS.subList(0, known);
            List<DriveState> changed = random.ints(random.nextInt(4), 0, 60 + step / 5)
                    .mapToObj(SortedRowsTest::id)
                    .distinct()
                    .map(id -> state(id, known))
                    .toList();
            changed.forEach(state -> states.put(state.id(), state));
            // others ask a little earlier or later than the one who brings the view up to date
            view = view.next(step, changed, terms, now.plusMillis(random.nextInt(100)));
            compare(view, RosterView.of(step, states.values(), terms), "seed " + seed + ", step " + step);
            now = now.plus(
                    random.nextInt(5) == 0
                            ? Duration.ofMinutes(random.nextInt(20_000) - 2_000)
                            : Duration.ofMillis(random.nextInt(3_000)));
        }
    }

    private void compare(RosterView carried, RosterView anew, String where) {
        for (int i = 0; i < 4; i++) {
            RecordedSession terms = TERMS.get(random.nextInt(TERMS.size()));
            Session session = random.nextInt(3) == 0 ? null : terms.session();
            BoardQuery.Sort sort = SORTS.get(random.nextInt(SORTS.size()));
            boolean descending = random.nextBoolean();
            SessionRows found = carried.sorted().of(session, now);
            SessionRows wanted = anew.sorted().of(session, now);
            assertThat(rows(found, sort, descending))
                    .as("%s: %s, %s, descending %s", where, session, sort, descending)
                    .isEqualTo(rows(wanted, sort, descending));
            assertThat(found.counts()).as(where).isEqualTo(wanted.counts());
        }
        assertThat(carried.conflicts()).as(where).isEqualTo(anew.conflicts());
    }

    private static List<BoardRow> rows(SessionRows rows, BoardQuery.Sort sort, boolean descending) {
        return rows.by(sort, descending).stream().map(ListedRow::row).toList();
    }

    @Test
    void aFewChangesAreCarriedOnAndNotSortedAnew() {
        IntStream.range(0, 60).forEach(i -> states.put(id(i), state(id(i), 2)));
        RosterView view = RosterView.of(0, states.values(), TERMS);
        Set<ListedRow> before = Collections.newSetFromMap(new IdentityHashMap<>());
        before.addAll(view.sorted().of(null, now).by(BoardQuery.Sort.LABEL, false));
        DriveState old = java.util.Objects.requireNonNull(states.get(id(3)));
        DriveState changed = drive(old.id(), old.tags(), List.of(claim("dropped")), old.marks(), old.lastRun());
        RosterView next = view.next(1, List.of(changed), TERMS, now);
        assertThat(next.sorted().of(null, now).by(BoardQuery.Sort.LABEL, false).stream()
                        .filter(before::contains)
                        .count())
                .isEqualTo(before.size() - 1);
    }

    @Test
    void rowsStayUntilTheLastMomentOfAPass() {
        states.put(id(1), drive(id(1), List.of(), List.of(), List.of(mark(true, now, 0)), null));
        Session session = TERMS.get(0).session();
        Instant last = now.plus(Duration.ofDays(session.validDays()));
        SessionRows rows = RosterView.of(0, states.values(), TERMS).sorted().of(session, now);
        assertThat(rows.counts().getOrDefault(Standing.TRUSTED, 0)
                        + rows.counts().getOrDefault(Standing.CLEARED, 0))
                .isEqualTo(1);
        assertThat(rows.holds(last)).isTrue();
        assertThat(rows.holds(last.plusNanos(1))).isFalse();
    }

    /** Every fourth has no usable serial: without a tag its records stand alone, and with one they are shown elsewhere. */
    private static String id(int number) {
        return (number % 4 == 0 ? "u-" : "d-")
                + String.format(java.util.Locale.ROOT, "%020d", number * 7_919L % 100_003);
    }

    private DriveState state(String id, int knownTerms) {
        Set<String> tags = new TreeSet<>();
        List<Claim> withdrawals = new ArrayList<>();
        List<Mark> marks = new ArrayList<>();
        for (int i = random.nextInt(8) == 0 ? 2 : random.nextInt(2); i > 0; i--) {
            tags.add("T-" + random.nextInt(50));
        }
        if (random.nextInt(10) == 0) {
            withdrawals.add(claim("dropped"));
        }
        for (int i = random.nextInt(5); i > 0; i--) {
            Instant at = now.plus(Duration.ofMinutes(random.nextInt(200_000) - 199_000));
            marks.add(mark(random.nextInt(4) > 0, at, random.nextInt(knownTerms)));
        }
        marks.sort(java.util.Comparator.comparingLong(Mark::atMs));
        LastRun last = marks.isEmpty() ? null : lastRun(marks.get(marks.size() - 1));
        return drive(id, List.copyOf(tags), withdrawals, marks, last);
    }

    private DriveState drive(
            String id, List<String> tags, List<Claim> withdrawals, List<Mark> marks, @Nullable LastRun last) {
        return new DriveState(
                id,
                id.startsWith("u-") ? null : new DriveIdentity("Maker", "Model " + id.charAt(20), "S" + id, 64L << 30),
                tags,
                withdrawals,
                marks,
                marks.size(),
                0,
                0,
                names,
                "note " + names++,
                last);
    }

    private Claim claim(String text) {
        return new Claim("e" + names++, text, "Ada", now.toEpochMilli());
    }

    private Mark mark(boolean pass, Instant at, int terms) {
        return new Mark(
                pass,
                at.toEpochMilli(),
                TERMS.get(terms).id(),
                random.nextInt(5) == 0,
                "e" + names,
                "r" + names++,
                1000L * random.nextInt(7200),
                random.nextLong(100_000_000_000L));
    }

    private static LastRun lastRun(Mark mark) {
        RecordedSession terms = TERMS.stream()
                .filter(one -> one.id().equals(mark.sessionId()))
                .findFirst()
                .orElseThrow();
        return new LastRun(
                mark.atMs(),
                mark.pass() ? Verdict.Outcome.PASS : Verdict.Outcome.FAIL,
                terms.id(),
                terms.session().name());
    }
}
