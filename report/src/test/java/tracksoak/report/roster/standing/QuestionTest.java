package tracksoak.report.roster.standing;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.Estimate;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;

/** The standing of one drive, from records alone. */
class QuestionTest {

    private static final Session BARN = RunSketch.session("barn-32", 32);
    private static final Session TRIO = RunSketch.session("trio-8", 8);
    private static final Session FESTIVAL = RunSketch.session("festival-64", 64);

    private final TesterKey ada = TesterKey.create("Ada");
    private final List<KnownEvent> events = new ArrayList<>(List.of(Intake.check(
                    new Parcel(EventDraft.addKey(ada.verifyKey(), "Ada", "").sign(ada, Shows.START), null))
            .known()));
    private final List<RecordedSession> terms = new ArrayList<>();
    private Instant now = Shows.START.plus(Duration.ofDays(1));

    private void enter(Shows show) {
        enter(show.signed(ada));
    }

    private void enter(SignedRecord record) {
        Intake.Checked checked = Intake.check(
                new Parcel(EventDraft.record(record, null).sign(ada, Shows.START), Intake.pack(record.canonical())));
        events.add(checked.known());
        if (checked.session() != null) {
            terms.add(checked.session());
        }
    }

    private SessionStanding ask(Session session) {
        Collections.shuffle(events, new Random(events.size()));
        String id = events.stream()
                .map(known -> known.event().drive())
                .filter(drive -> drive != null)
                .findFirst()
                .map(String::valueOf)
                .orElse("d-none");
        return Question.of(session, terms, now)
                .ask(DriveFold.of(id, new PlainSource(events), CrewKeys.of(events))
                        .state());
    }

    private static Shows pass(int second) {
        return Shows.pass("B4RN-0001", Shows.START.plusSeconds(second));
    }

    private static Shows fail(int second) {
        return Shows.fail("B4RN-0001", Shows.START.plusSeconds(second));
    }

    @Test
    void withoutARecordItIsUnproven() {
        assertThat(ask(BARN).standing()).isEqualTo(Standing.UNPROVEN);
    }

    @Test
    void aPassCoversLighterSessionsAndNoHeavierOne() {
        enter(pass(0));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.CLEARED);
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.CLEARED);
        assertThat(ask(FESTIVAL).standing()).isEqualTo(Standing.UNPROVEN);
    }

    /** Its hours pass in seconds, so that it ends ahead of every clock. */
    @Test
    void aSimulatedRunCountsFromItsBeginning() {
        Shows ahead = Shows.pass("seed 7", now.plus(Duration.ofHours(4))).hardware("simulated", "steady-stick");
        ahead.began = now;
        enter(ahead);
        assertThat(ask(BARN).standing()).isEqualTo(Standing.UNPROVEN);
        events.remove(events.size() - 1);
        ahead.sketch.ioMode = IoMode.SIMULATED;
        enter(ahead);
        assertThat(ask(BARN).standing()).isEqualTo(Standing.CLEARED);
        assertThat(ask(BARN).validUntil()).isEqualTo(now.plus(Duration.ofDays(BARN.validDays())));
    }

    @Test
    void aFailCountsAgainstTheSameAndHeavierSessionsOnly() {
        enter(pass(0).session(FESTIVAL));
        enter(fail(10));
        assertThat(ask(FESTIVAL).standing()).isEqualTo(Standing.FAILED);
        assertThat(ask(BARN).standing()).isEqualTo(Standing.FAILED);
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.CLEARED);
    }

    /** The careful side: what was asked of it is not known, so nobody knows that it asked more. */
    @Test
    void aFailForASessionThatIsNotKnownHereCounts() {
        enter(pass(0));
        enter(fail(10).session(FESTIVAL));
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.CLEARED);
        terms.removeIf(one -> one.session().equals(FESTIVAL));
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.FAILED);
    }

    @Test
    void damagedDataCountsAgainstEverySession() {
        enter(pass(0));
        Shows damaged = pass(10).session(FESTIVAL);
        var back = damaged.sketch.phase(PhaseKind.READ_BACK);
        var good = Objects.requireNonNull(back.readBack);
        back.readBack = new tracksoak.report.record.facts.ReadBackFacts(
                good.blocks(), good.blocks() - 3, 0, 0, 3, 0, 0, 0, good.fromDevice(), List.of());
        enter(damaged);
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.FAILED);
        assertThat(ask(TRIO).why()).contains("every session");
    }

    /** A line-check lifts nothing, and after one the failed run is not the last any more. */
    @Test
    void aLineCheckThatPassesAfterwardsChangesNothingAndTheSentenceStaysTrue() {
        Shows gone = fail(10).session(FESTIVAL);
        gone.sketch.phase(PhaseKind.TAKE).fault = new Fault(Fault.Kind.GONE, 12, 1_000, "write", "no such device");
        enter(gone);
        enter(Shows.lineCheck("B4RN-0001", Shows.START.plusSeconds(11)));
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.FAILED);
        assertThat(ask(TRIO).why())
                .matches("A run on \\d{4}-\\d\\d-\\d\\d failed with wrong data or a drive that stopped, which ends"
                        + " trust for every session, and no full PASS for this session came after it\\.");
    }

    @Test
    void aDriveThatStoppedCountsAgainstEverySession() {
        enter(pass(0));
        Shows gone = pass(10).session(FESTIVAL);
        var take = gone.sketch.phase(PhaseKind.TAKE);
        take.complete = false;
        take.fault = new Fault(Fault.Kind.GONE, 12, 1_000, "write", "no such device");
        enter(gone);
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.FAILED);
    }

    @Test
    void neitherALineCheckNorAShortenedPlanNorNoVerdictMakesTrusted() {
        Shows lineCheck = pass(0);
        lineCheck.sketch.plan = PlanFacts.of(PlanName.LINE_CHECK, false, 0, 0, 120, 600_000_000L);
        enter(lineCheck);
        Shows shortened = pass(1);
        shortened.sketch.shortened();
        enter(shortened);
        Shows open = pass(2);
        open.sketch.state = RunState.INTERRUPTED;
        open.sketch.stateReason = "stopped by hand";
        enter(open);
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.UNPROVEN);
    }

    @Test
    void noVerdictChangesNothing() {
        enter(pass(0));
        Shows open = pass(10);
        open.sketch.state = RunState.INTERRUPTED;
        open.sketch.stateReason = "stopped by hand";
        assertThat(open.record().verdict()).extracting(Verdict::outcome).isEqualTo(Verdict.Outcome.NO_VERDICT);
        enter(open);
        assertThat(ask(BARN).standing()).isEqualTo(Standing.CLEARED);
    }

    @Test
    void anEstimateNeverGivesTrust() {
        Shows open = pass(0);
        open.sketch.state = RunState.INTERRUPTED;
        open.sketch.stateReason = "stopped by hand";
        Verdict verdict = Objects.requireNonNull(open.record().verdict());
        Estimate good =
                new Estimate(Verdict.Outcome.PASS, "An estimate: it would carry the session.", List.of(), List.of());
        enter(SignedRecord.sign(open.record().withVerdict(verdict.with(good)), ada));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.UNPROVEN);
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.UNPROVEN);
    }

    @Test
    void aPassCountsAsLongAsTheSessionAskedAboutSays() {
        enter(pass(0));
        Session monthly = validFor(30);
        Session yearly = validFor(366);
        now = Shows.START.plus(Duration.ofDays(30));
        assertThat(ask(monthly).standing()).isEqualTo(Standing.CLEARED);
        now = Shows.START.plus(Duration.ofDays(31));
        assertThat(ask(monthly).standing()).isEqualTo(Standing.DUE);
        assertThat(ask(BARN).standing()).isEqualTo(Standing.CLEARED);
        now = Shows.START.plus(Duration.ofDays(92));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.DUE);
        assertThat(ask(yearly).standing()).isEqualTo(Standing.CLEARED);
    }

    private static Session validFor(int days) {
        return BARN.but().validDays(days).build();
    }

    @Test
    void atOneMomentTheFailHolds() {
        enter(pass(0));
        enter(fail(0));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.FAILED);
    }

    @Test
    void aPassOfTheFutureGivesNoTrustAndAFailOfTheFutureEndsIt() {
        enter(pass(0));
        now = Shows.START.plus(Duration.ofDays(100));
        enter(Shows.pass("B4RN-0001", now.plus(Duration.ofHours(2))));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.DUE);
        enter(Shows.pass("B4RN-0001", now.plus(Duration.ofMinutes(50))));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.CLEARED);
        enter(Shows.fail("B4RN-0001", now.plus(Duration.ofDays(300))));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.FAILED);
        assertThat(ask(BARN).why()).contains("future");
    }

    @Test
    void aPassThatIsDatedInTheFutureIsSaidToBeThereAndNotToCountYet() {
        enter(Shows.pass("B4RN-0001", Shows.START.plus(Duration.ofDays(3))));
        now = Shows.START;
        assertThat(ask(BARN).standing()).isEqualTo(Standing.UNPROVEN);
        assertThat(ask(BARN).why())
                .contains("dated in the future, on 2026-02-17", "does not count until then")
                .doesNotContain("No full PASS on record");
        enter(Shows.fail("B4RN-0001", Shows.START.minusSeconds(60)));
        assertThat(ask(BARN).why()).contains("failed", "dated in the future, on 2026-02-17");
    }

    @Test
    void aVerdictThatDoesNotFollowFromItsFactsGivesNoTrust() {
        RunRecord failed = fail(0).record();
        Verdict lie = Objects.requireNonNull(pass(0).record().verdict());
        enter(SignedRecord.sign(failed.withVerdict(lie), ada));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.FAILED);
        assertThat(events)
                .filteredOn(known -> known.digest() != null)
                .allSatisfy(known -> assertThat(
                                Objects.requireNonNull(known.digest()).doubt())
                        .contains("does not follow"));
    }

    @Test
    void aChangedRecordGivesNeitherTrustNorBlame() {
        SignedRecord good = pass(0).signed(ada);
        SignedRecord moved =
                SignedRecord.kept(pass(99).signed(ada).canonical(), "Ada", ada.verifyKey(), good.signature());
        enter(moved);
        SignedRecord bad = fail(0).signed(ada);
        enter(SignedRecord.kept(fail(98).signed(ada).canonical(), "Ada", ada.verifyKey(), bad.signature()));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.UNPROVEN);
    }

    @Test
    void aFullShowProvesTheCapacity() {
        Shows show = Shows.fullShow("B4RN-0001", Shows.START);
        enter(show);
        assertThat(ask(BARN).standing()).isEqualTo(Standing.TRUSTED);
        assertThat(ask(BARN).wholeCapacity()).isTrue();
        assertThat(ask(TRIO).standing()).isEqualTo(Standing.TRUSTED);
        enter(pass(10));
        assertThat(ask(BARN).standing()).isEqualTo(Standing.TRUSTED);
        assertThat(ask(BARN).wholeCapacity()).isTrue();
    }

    /** Sessions of one hour, of which a sound-check sees 5 min before its fill and 10 min after it. */
    @Test
    void severalRunsTogetherProveTheWholeLength() {
        Session hour = RunSketch.session("barn-hour", 32, SessionKind.RECORDING, 3600, 2);
        for (int run = 0; run < 3; run++) {
            enter(pass(100 * run).session(hour));
            assertThat(ask(hour).standing()).isEqualTo(Standing.CLEARED);
            Evidence seen = Objects.requireNonNull(ask(hour).evidence());
            assertThat(seen.minutes()).isEqualTo(15 * (run + 1) + " of 60 min");
            assertThat(seen.wanting()).isEqualTo(60 - 15 * (run + 1) + " min at its pace");
            assertThat(ask(hour).why()).contains("Still needed to be trusted: " + seen.wanting());
        }
        enter(pass(300).session(hour));
        assertThat(ask(hour).standing()).isEqualTo(Standing.TRUSTED);
        assertThat(ask(hour).why()).contains("by 4 runs together");
        assertThat(ask(hour).validUntil()).isEqualTo(Shows.START.plus(Duration.ofDays(90)));
        assertThat(ask(BARN).standing()).as("of three hours").isEqualTo(Standing.UNPROVEN);
        now = Shows.START.plus(Duration.ofDays(90)).plusNanos(1);
        assertThat(ask(hour).standing()).as("the first is too old").isEqualTo(Standing.CLEARED);
        assertThat(ask(hour).validUntil())
                .isEqualTo(Shows.START.plusSeconds(300).plus(Duration.ofDays(90)));
        now = now.plusSeconds(300);
        assertThat(ask(hour).standing()).isEqualTo(Standing.DUE);
    }

    @Test
    void aFailBetweenThemBeginsTheCountAnew() {
        Session hour = RunSketch.session("barn-hour", 32, SessionKind.RECORDING, 3600, 2);
        for (int run = 0; run < 3; run++) {
            enter(pass(100 * run).session(hour));
        }
        enter(fail(250).session(hour));
        enter(pass(300).session(hour));
        assertThat(ask(hour).standing()).isEqualTo(Standing.CLEARED);
        assertThat(Objects.requireNonNull(ask(hour).evidence()).minutes()).isEqualTo("15 of 60 min");
    }

    /** One run in records that differ in a word is one run. */
    @Test
    void aRunCountsOnce() {
        Session hour = RunSketch.session("barn-hour", 32, SessionKind.RECORDING, 3600, 2);
        for (int record = 0; record < 4; record++) {
            Shows again = pass(0).session(hour);
            again.tag = "T-" + record;
            enter(again);
        }
        assertThat(ask(hour).standing()).isEqualTo(Standing.CLEARED);
        assertThat(Objects.requireNonNull(ask(hour).evidence()).minutes()).isEqualTo("15 of 60 min");
    }

    @Test
    void runsForOtherSessionsCountWhereTheyCoverIt() {
        Session hour = RunSketch.session("trio-hour", 8, SessionKind.RECORDING, 3600, 2);
        Session fast = hour.but()
                .name("fast-hour")
                .groups(List.of(new TrackGroup(8, 96_000, SampleFormat.PCM_24)))
                .build();
        for (int run = 0; run < 4; run++) {
            enter(pass(100 * run));
        }
        assertThat(ask(hour).standing()).isEqualTo(Standing.TRUSTED);
        assertThat(ask(fast).standing()).isEqualTo(Standing.UNPROVEN);
        assertThat(ask(fast).why()).contains("barn-32 falls short in the time between chunks");
    }

    /** While the span of an answer holds, it is the same at every moment of it; just outside it may be another. */
    @ParameterizedTest
    @ValueSource(longs = {71, 72, 73})
    void anAnswerHoldsAsLongAsItSays(long seed) {
        Random random = Seeded.random(seed);
        Session hour = RunSketch.session("barn-hour", 32, SessionKind.RECORDING, 3600, 2);
        for (int run = 0; run < 8; run++) {
            int second = random.nextInt(100 * 86_400);
            enter((random.nextInt(5) == 0 ? fail(second) : pass(second)).session(hour));
        }
        for (int i = 0; i < 200; i++) {
            now = Shows.START.plusSeconds(random.nextInt(220 * 86_400));
            SessionStanding at = ask(hour);
            assertThat(at.holds().holds(now)).isTrue();
            for (Instant other : List.of(at.holds().from(), at.holds().until())) {
                if (other.isAfter(Instant.EPOCH) && other.isBefore(Shows.START.plus(Duration.ofDays(9_000)))) {
                    now = other;
                    assertThat(ask(hour)).isEqualTo(at);
                }
            }
        }
    }

    @Test
    void aSoundCheckUnderAnotherNameProvesNoCapacity() {
        Shows show = pass(0);
        PlanFacts plan = show.sketch.plan;
        show.sketch.plan = PlanFacts.of(
                PlanName.FULL_SHOW, false, plan.takeBeforeS(), plan.fillCapS(), plan.takeAfterS(), plan.bytesPlanned());
        enter(show);
        assertThat(ask(BARN).standing()).isEqualTo(Standing.UNPROVEN);
    }
}
