package tracksoak.report.roster;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.flywaydb.core.Flyway;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.sign.KeyRing;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.ExchangeFile;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.exchange.Tally;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.SqlStore;

/** What somebody would do who wants the table to say what is not so; every store must hold. Each is named in docs/roster.md. */
abstract class TruthContract {

    private static final Session BARN = RunSketch.session("barn-32", 32);
    private static final Session TRIO = RunSketch.session("trio-8", 8);
    private static final Instant LATER = Shows.START.plus(Duration.ofHours(1));

    private final TesterKey ada = TesterKey.create("Ada");
    private final TesterKey bea = TesterKey.create("Bea");
    private final TesterKey eve = TesterKey.create("Eve");
    private final List<Roster> opened = new ArrayList<>();
    private Instant now = Shows.START.plus(Duration.ofDays(1));
    private Roster roster;
    private RosterDesk desk;

    /** An empty place. */
    abstract RosterPlace place();

    /** A roster just made, in which nothing is yet. */
    abstract RosterPlace young();

    @BeforeEach
    void open() {
        roster = fresh();
        desk = roster.desk(ada);
    }

    @AfterEach
    void close() {
        opened.forEach(Roster::close);
    }

    private Roster fresh() {
        Roster one = Roster.open(young(), () -> now);
        opened.add(one);
        return one;
    }

    private Standing standing(String drive) {
        return roster.drive(drive, BARN).standing().standing();
    }

    private static Parcel entered(SignedRecord record, @Nullable String tag, TesterKey author, Instant at) {
        return new Parcel(EventDraft.record(record, tag).sign(author, at), Intake.pack(record.canonical()));
    }

    private static Parcel parcel(EventDraft draft, TesterKey author, Instant at) {
        return new Parcel(draft.sign(author, at), null);
    }

    private static Parcel known(TesterKey key) {
        return parcel(EventDraft.addKey(key.verifyKey(), key.name(), ""), key, Shows.START);
    }

    /** Takes these in one order and in the other, on a roster each; the second must say what the first says. */
    private Roster inAnyOrder(List<Parcel> parcels) {
        Roster one = fresh();
        parcels.forEach(
                parcel -> assertThat(one.take(List.of(parcel)).refused()).isEmpty());
        List<Parcel> turned = new ArrayList<>(parcels);
        Collections.reverse(turned);
        Roster other = fresh();
        turned.forEach(parcel -> other.take(List.of(parcel)));
        for (Session session : Arrays.asList(null, BARN, TRIO)) {
            assertThat(other.board(BoardQuery.all(session)).rows())
                    .isEqualTo(one.board(BoardQuery.all(session)).rows());
        }
        assertThat(other.sessions()).isEqualTo(one.sessions());
        assertThat(other.conflicts()).isEqualTo(one.conflicts());
        assertThat(other.keys()).isEqualTo(one.keys());
        return one;
    }

    private static SignedRecord unsigned(SignedRecord record) {
        return SignedRecord.kept(record.canonical(), record.by(), record.key(), new byte[0]);
    }

    @Test
    void aFailEnteredAgainWithoutItsSignatureStaysAFail() throws IOException {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        SignedRecord fail = Shows.fail("B4RN-0001", Shows.START.plusSeconds(10)).signed(ada);
        desk.enter(fail, null);
        assertThat(standing("S-014")).isEqualTo(Standing.FAILED);
        Parcel forged = entered(unsigned(fail), null, eve, Shows.START.minusSeconds(86_400));
        assertThat(roster.take(List.of(forged)).taken()).isEqualTo(1);
        assertThat(standing("S-014")).isEqualTo(Standing.FAILED);
        assertThat(roster.drive("S-014", BARN).drive().unsigned()).isZero();
        assertThat(roster.signedRecord(fail.sha256()).holds()).isTrue();
        List<Parcel> all = roster.peer().pull(roster.peer().refs("", 100));
        assertThat(inAnyOrder(all).drive("S-014", BARN).standing().standing()).isEqualTo(Standing.FAILED);
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        ExchangeFile.write(roster.peer(), file);
        Roster imported = fresh();
        imported.take(List.of(known(ada)));
        ExchangeFile.read(new ByteArrayInputStream(file.toByteArray()), imported.peer(), false);
        assertThat(imported.drive("S-014", BARN).standing().standing()).isEqualTo(Standing.FAILED);
    }

    @Test
    void aWithdrawnRecordStaysWithdrawnUnderItsTag() {
        String loose =
                String.valueOf(desk.enter(Shows.pass("00000000", Shows.START).signed(ada), null)
                        .drive());
        desk.note(loose, "loose plug");
        desk.withdraw(loose, "loose plug");
        assertThat(standing(loose)).isEqualTo(Standing.WITHDRAWN);
        roster.desk(bea).tag(loose, "S-020", "label put on");
        assertThat(standing("S-020")).isEqualTo(Standing.WITHDRAWN);
        assertThat(roster.drive("S-020", BARN).drive().lastNote()).isEqualTo("loose plug");
        assertThat(roster.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        assertThat(roster.board(BoardQuery.all(BARN)).rows()).hasSize(1);
        List<Parcel> all = roster.peer().pull(roster.peer().refs("", 100));
        assertThat(inAnyOrder(all).drive("S-020", BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        roster.desk(bea).restore("S-020", "new plug");
        assertThat(standing("S-020")).isEqualTo(Standing.CLEARED);
    }

    @Test
    void twoTagsOnOneLooseRecordAreAConflict() {
        Roster other = fresh();
        String loose =
                String.valueOf(desk.enter(Shows.pass("00000000", Shows.START).signed(ada), null)
                        .drive());
        desk.withdraw(loose, "loose plug");
        other.take(roster.peer().pull(roster.peer().refs("", 100)));
        desk.tag(loose, "S-020", "label put on");
        other.desk(bea).tag(loose, "S-021", "label put on");
        other.desk(bea).restore("S-021", "works");
        roster.take(other.peer().pull(other.peer().refs("", 100)));
        Roster both = inAnyOrder(roster.peer().pull(roster.peer().refs("", 100)));
        assertThat(both.conflicts()).singleElement().satisfies(conflict -> {
            assertThat(conflict.kind()).isEqualTo(Conflict.Kind.DRIVE_UNDER_SEVERAL_TAGS);
            assertThat(conflict.tags()).containsExactly("S-020", "S-021");
            assertThat(conflict.drives()).hasSize(2);
        });
        assertThat(both.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        now = now.plusSeconds(60);
        Conflict.Way way = both.conflicts().get(0).ways().get(0);
        assertThat(way.tag()).isEqualTo("S-020");
        both.desk(ada).settle(way.tag(), way.drive(), "the label says so");
        assertThat(both.conflicts()).isEmpty();
        assertThat(both.drive("S-020", BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        assertThat(both.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        both.desk(ada).restore("S-020", "new plug");
        assertThat(both.board(BoardQuery.tonight(BARN)).rows())
                .extracting(BoardRow::label)
                .containsExactly("S-020");
    }

    private String under(SignedRecord record, @Nullable String tag) {
        Parcel parcel = entered(record, tag, ada, LATER);
        if (roster.keys().status(ada.id()) == KeyRing.Status.UNKNOWN) {
            roster.take(List.of(known(ada)));
        }
        roster.take(List.of(parcel));
        return String.valueOf(parcel.event().drive());
    }

    private List<Parcel> everything() {
        List<String> refs = roster.peer().refs("", 1_000);
        List<Parcel> all = new ArrayList<>();
        while (all.size() < refs.size()) {
            all.addAll(roster.peer().pull(refs.subList(all.size(), Math.min(refs.size(), all.size() + 200))));
        }
        return all;
    }

    @Test
    void aWithdrawalFollowsItsRecordThroughASettledConflict() {
        SignedRecord record = Shows.pass("00000000", Shows.START).signed(ada);
        desk.enter(record, null);
        String first = under(record, "S-020");
        desk.withdraw("S-020", "loose plug");
        desk.note("S-020", "rattles");
        String other = under(record, "S-021");
        assertThat(roster.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        desk.settle("S-021", "S-021", "the label says so");
        Roster settled = inAnyOrder(everything());
        assertThat(settled.conflicts()).isEmpty();
        assertThat(settled.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        assertThat(settled.drive(other, BARN).standing().why()).contains("loose plug");
        assertThat(settled.drive(other, BARN).drive().lastNote()).isEqualTo("rattles");
        assertThat(settled.drive(first, BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        assertThat(settled.history(other))
                .filteredOn(entry -> entry.event().why().equals("loose plug"))
                .singleElement()
                .matches(entry -> !entry.lifted());
        now = now.plusSeconds(60);
        desk.restore(other, "new plug");
        Roster restored = inAnyOrder(everything());
        assertThat(restored.board(BoardQuery.tonight(BARN)).rows())
                .extracting(BoardRow::label)
                .containsExactly("S-021");
        assertThat(restored.drive(first, BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
    }

    @Test
    void aWithdrawalFollowsFromTagToTagAndRecordToRecord() {
        SignedRecord one = Shows.pass("00000000", Shows.START).signed(ada);
        SignedRecord two = Shows.pass("00000000", Shows.START.plusSeconds(60)).signed(ada);
        String first = under(one, "S-020");
        desk.withdraw("S-020", "loose plug");
        under(one, "S-021");
        desk.settle("S-021", "S-021", "its label");
        under(two, "S-021");
        String third = under(two, "S-022");
        desk.settle("S-022", "S-022", "its label, now");
        Roster chain = inAnyOrder(everything());
        assertThat(chain.conflicts()).isEmpty();
        assertThat(chain.drive(third, BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        assertThat(chain.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        desk.restore(first, "new plug");
        assertThat(inAnyOrder(everything()).board(BoardQuery.tonight(BARN)).rows())
                .extracting(BoardRow::label)
                .containsExactlyInAnyOrder("S-021", "S-022");
    }

    @Test
    void aWithdrawalStaysWithARecordThatLostItsTag() {
        SignedRecord record = Shows.pass("00000000", Shows.START).signed(ada);
        String loose = under(record, null);
        under(record, "S-020");
        desk.withdraw("S-020", "loose plug");
        String serial = under(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-050");
        desk.settle("S-020", serial, "that one has it");
        Roster alone = inAnyOrder(everything());
        assertThat(alone.drive(loose, BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        assertThat(alone.board(BoardQuery.tonight(BARN)).rows())
                .extracting(row -> row.drive().id())
                .containsExactly(serial);
    }

    @Test
    void aFailUnderATagThatWasTakenBackFollowsTheRecord() {
        SignedRecord pass = Shows.pass("00000000", Shows.START).signed(ada);
        desk.enter(pass, null);
        under(pass, "S-020");
        SignedRecord fail = Shows.fail("00000000", Shows.START.plusSeconds(60)).signed(ada);
        under(fail, "S-020");
        String other = under(pass, "S-021");
        desk.settle("S-021", "S-021", "the label says so");
        Roster settled = inAnyOrder(everything());
        assertThat(settled.drive(other, BARN).standing().standing()).isEqualTo(Standing.FAILED);
        assertThat(settled.drive(other, BARN).drive().records()).isEqualTo(1);
        assertThat(settled.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        assertThat(settled.history(other))
                .anyMatch(entry -> entry.event()
                        .ref()
                        .equals(settled.drive(other, BARN).standing().decidedBy()));
        under(Shows.pass("00000000", Shows.START.plusSeconds(120)).signed(ada), "S-021");
        assertThat(inAnyOrder(everything()).drive(other, BARN).standing().standing())
                .isEqualTo(Standing.CLEARED);
    }

    @Test
    void twoTagsOfARecordThatNeverWasWithoutOneAreAConflictToo() {
        SignedRecord record = Shows.pass("00000000", Shows.START).signed(ada);
        under(record, "S-020");
        under(record, "S-021");
        Roster both = inAnyOrder(everything());
        assertThat(both.conflicts())
                .singleElement()
                .satisfies(conflict -> assertThat(conflict.tags()).containsExactly("S-020", "S-021"));
        assertThat(both.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        assertThat(both.board(BoardQuery.all(BARN)).rows()).hasSize(2);
        desk.settle("S-021", "S-021", "the label says so");
        assertThat(roster.board(BoardQuery.tonight(BARN)).rows())
                .extracting(BoardRow::label)
                .containsExactly("S-021");
    }

    /** Whatever tags a withdrawn record is given, and however often these are settled and settled back, it is never offered. */
    @Test
    void noSettlementBringsAWithdrawnRecordBack() {
        int withdrawn = 0;
        for (long seed = 1; seed <= 4; seed++) {
            Random random = Seeded.random(seed);
            roster = fresh();
            desk = roster.desk(ada);
            SignedRecord record = Shows.pass("00000000", Shows.START).signed(ada);
            List<String> places = new ArrayList<>(List.of(under(record, null)));
            boolean out = false;
            for (int act = 0; act < 14; act++) {
                now = now.plusSeconds(60);
                String tag = "S-02" + random.nextInt(3);
                String place = places.get(random.nextInt(places.size()));
                switch (random.nextInt(4)) {
                    case 0, 1 ->
                        places.add(String.valueOf(desk.enter(record, tag).drive()));
                    case 2 -> {
                        try {
                            desk.settle(tag, place, "looked");
                        } catch (Problem nothingToSettle) {
                            assertThat(nothingToSettle.kind()).isEqualTo(Problem.Kind.ASKED_WRONG);
                        }
                    }
                    default -> {
                        if (act > 3 && !out) {
                            desk.withdraw(place, "loose plug");
                            out = true;
                        }
                    }
                }
                List<BoardRow> offered = roster.board(BoardQuery.tonight(BARN)).rows();
                assertThat(out ? offered : List.of())
                        .as("seed %d, act %d", seed, act)
                        .isEmpty();
            }
            withdrawn += out ? 1 : 0;
        }
        assertThat(withdrawn).isGreaterThan(2);
        inAnyOrder(everything());
    }

    @Test
    void aLabelAloneHidesNoRecord() {
        String loose = under(Shows.fail("00000000", Shows.START).signed(ada), null);
        desk.note(loose, "rattles");
        roster.take(List.of(
                known(bea), parcel(EventDraft.tag(loose, null, "S-020", "without entering it there"), bea, LATER)));
        assertThat(inAnyOrder(everything()).board(BoardQuery.all(BARN)).rows())
                .singleElement()
                .satisfies(row -> assertThat(row.drive().id()).isEqualTo(loose))
                .satisfies(row -> assertThat(row.standing().standing()).isEqualTo(Standing.FAILED));
    }

    @Test
    void aFailedRunToldAgainAsAPassGivesNoTrust() {
        Shows told = Shows.fail("B4RN-0001", Shows.START);
        desk.enter(told.signed(ada), "S-014");
        Shows better = Shows.pass("B4RN-0001", Shows.START.plusSeconds(1));
        better.id = told.id;
        desk.enter(better.signed(ada), null);
        assertThat(inAnyOrder(everything()).drive("S-014", BARN).standing().standing())
                .isEqualTo(Standing.FAILED);
        desk.enter(Shows.pass("B4RN-0001", Shows.START.plusSeconds(2)).signed(ada), null);
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
    }

    @Test
    void hundredsOfWithdrawalsAreLiftedAtOnce() {
        String drive = under(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        List<Parcel> many = new ArrayList<>(List.of(known(bea)));
        for (int i = 0; i < EventDraft.MOST_LIFTS + 20; i++) {
            many.add(parcel(EventDraft.withdraw(drive, "no " + i), bea, LATER));
        }
        for (int from = 0; from < many.size(); from += 200) {
            roster.take(many.subList(from, Math.min(many.size(), from + 200)));
        }
        desk.revokeKey(bea.id(), "stolen");
        assertThat(standing("S-014")).isEqualTo(Standing.WITHDRAWN);
        desk.restore("S-014", "nothing is wrong with it");
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
    }

    @Test
    void aDamagedWithdrawalOfARecordStandsUnderItsTag() {
        RosterPlace place = place();
        Roster first = at(place);
        RosterDesk own = first.desk(ada);
        String loose = String.valueOf(
                own.enter(Shows.pass("00000000", Shows.START).signed(ada), null).drive());
        RosterEvent withdrawn = own.withdraw(loose, "loose plug");
        own.tag(loose, "S-020", "label put on");
        first.close();
        sql(place, "UPDATE event SET body = '{' WHERE ref = '" + withdrawn.ref() + "'");
        Roster damaged = at(place);
        damaged.rebuild();
        assertThat(damaged.drive("S-020", BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        assertThat(damaged.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
    }

    @Test
    void nobodyUnknownPutsARecordUnderAnotherTag() {
        desk.enter(Shows.fail("00000000", Shows.START).signed(ada), "S-020");
        SignedRecord pass = Shows.pass("00000000", Shows.START.plusSeconds(60)).signed(ada);
        desk.enter(pass, "S-021");
        assertThat(roster.take(List.of(entered(pass, "S-020", eve, LATER))).taken())
                .isEqualTo(1);
        assertThat(standing("S-020")).isEqualTo(Standing.FAILED);
        assertThat(standing("S-021")).isEqualTo(Standing.CLEARED);
    }

    @Test
    void validityIsThatOfTheSessionAskedAbout() {
        Session brief = valid(BARN, "barn-32", 10);
        List<Parcel> parcels = List.of(
                known(ada),
                entered(
                        Shows.pass("B4RN-0001", Shows.START)
                                .session(valid(BARN, "barn-32", 3_650))
                                .signed(ada),
                        "S-001",
                        ada,
                        LATER),
                entered(Shows.pass("B4RN-0002", Shows.START).session(brief).signed(ada), "S-002", ada, LATER),
                entered(
                        Shows.pass("B4RN-0003", Shows.START)
                                .session(valid(BARN, "fair-32", 3_650))
                                .signed(ada),
                        "S-003",
                        ada,
                        LATER),
                entered(
                        Shows.pass("B4RN-0004", Shows.START)
                                .session(valid(BARN, "eves-32", 3_650))
                                .signed(eve),
                        "S-004",
                        eve,
                        LATER));
        now = Shows.START.plus(Duration.ofDays(30));
        Roster all = inAnyOrder(parcels);
        for (String drive : List.of("S-001", "S-002", "S-003")) {
            assertThat(all.drive(drive, brief).standing().standing()).as(drive).isEqualTo(Standing.DUE);
            assertThat(all.drive(drive, BARN).standing().standing()).as(drive).isEqualTo(Standing.CLEARED);
        }
        assertThat(all.drive("S-002", null).standing().standing()).isEqualTo(Standing.DUE);
        assertThat(all.drive("S-001", null).standing().standing()).isEqualTo(Standing.CLEARED);
        assertThat(all.sessions()).extracting(Session::name).containsExactly("barn-32", "barn-32", "fair-32");
        assertThat(all.sessions().get(0).validDays()).isEqualTo(10);
    }

    @Test
    void anUnknownKeysRunAsksNoQuestion() {
        desk.enter(Shows.fail("B4RN-0001", Shows.START).signed(ada), "S-014");
        desk.note("S-014", "handle broken");
        Session easy = RunSketch.session("eves-1", 1);
        roster.take(List.of(
                entered(Shows.pass("B4RN-0001", LATER).session(easy).signed(eve), null, eve, LATER),
                parcel(EventDraft.note(roster.drive("S-014", BARN).drive().id(), "fine, take it"), eve, LATER)));
        BoardRow row = roster.drive("S-014", null);
        assertThat(row.session()).isEqualTo("barn-32");
        assertThat(row.standing().standing()).isEqualTo(Standing.FAILED);
        assertThat(row.drive().lastNote()).isEqualTo("handle broken");
        assertThat(roster.sessions()).extracting(Session::name).containsExactly("barn-32");
        assertThat(roster.history("S-014")).hasSize(4);
    }

    @Test
    void namesHold128BitsAndOldOnesStillTakeBack() {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        RosterEvent withdrawn = desk.withdraw("S-014", "loan");
        assertThat(withdrawn.ref()).hasSize(36 + 1 + 32);
        String drive = String.valueOf(withdrawn.drive());
        roster.take(List.of(
                parcel(EventDraft.restore(drive, List.of(EventName.old(withdrawn.ref())), "back"), ada, LATER)));
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
        assertThatThrownBy(() -> EventDraft.restore(
                                drive, List.of(withdrawn.ref().substring(0, 60)), "back")
                        .sign(ada, LATER))
                .hasMessageContaining("names of events");
    }

    @Test
    void aTagThatReadsAsAnotherDrivesIdLeadsNobodyAstray() {
        String good =
                String.valueOf(desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014")
                        .drive());
        String bad =
                String.valueOf(desk.enter(Shows.fail("B4RN-0002", Shows.START).signed(ada), "S-015")
                        .drive());
        String id = good.toUpperCase(Locale.ROOT);
        assertThatThrownBy(() -> desk.tag(bad, id, "")).hasMessageContaining("no drive's id");
        assertThatThrownBy(() -> EventDraft.tag(bad, null, id, "").sign(ada, LATER))
                .hasMessageContaining("a tag such as");
        desk.tag(bad, id.substring(0, 8), "");
        desk.settle(id.substring(0, 8), bad, "its label");
        assertThatThrownBy(() -> roster.drive(good.substring(0, 8), BARN)).hasMessageContaining("2 drives are called");
        assertThat(standing(good)).isEqualTo(Standing.CLEARED);
    }

    /** Nobody can make two of one name; should it happen, the store is asked as if it had. */
    @Test
    void twoEventsOfOneNameAreAnAlarmOnBothSides() {
        RosterEvent one = EventDraft.withdraw("d-00000000000000000000", "loan").sign(ada, Shows.START);
        RosterEvent other = EventDraft.note("d-00000000000000000000", "fine").sign(ada, Shows.START);
        for (List<RosterEvent> both : List.of(List.of(one, other), List.of(other, one))) {
            try (SqlStore store = SqlStore.open(place())) {
                assertThat(store.append(List.of(Intake.check(new Parcel(both.get(0), null))))
                                .added())
                        .isEqualTo(1);
                SqlStore.Kept kept = store.append(List.of(
                        new Intake.Checked(new KnownEvent(both.get(0).ref(), both.get(1), null, false), null, null)));
                assertThat(kept.added()).isZero();
                assertThat(kept.clashes()).singleElement().satisfies(clash -> {
                    assertThat(clash.event()).isEqualTo(both.get(0).ref());
                    assertThat(clash.why()).contains("another event with other content bears this name here");
                });
                assertThat(store.event(both.get(0).ref()).orElseThrow().event()).isEqualTo(both.get(0));
            }
        }
    }

    @Test
    void anotherWayOfWritingASignatureIsNoOtherEvent() {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        RosterEvent withdrawn = desk.withdraw("S-014", "loan");
        desk.restore("S-014", "back");
        String json = new String(EventJson.bytes(withdrawn), UTF_8);
        String signature = withdrawn.signature();
        char last = signature.charAt(85);
        String alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
        List<String> texts = new ArrayList<>(List.of(signature + "==", signature + "=", signature.substring(0, 85)));
        for (int spare = 1; spare < 16; spare++) {
            texts.add(signature.substring(0, 85) + alphabet.charAt(alphabet.indexOf(last) ^ spare));
        }
        for (String text : texts) {
            assertThatThrownBy(
                            () -> EventJson.read(json.replace(signature, text).getBytes(UTF_8)))
                    .as(text)
                    .isInstanceOf(Problem.class);
        }
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
    }

    @Test
    void revocationsFollowFromTheirSet() {
        List<Parcel> mutual = List.of(
                known(ada),
                known(bea),
                known(eve),
                parcel(EventDraft.revokeKey(bea.verifyKey(), "Bea", "stolen"), ada, LATER),
                parcel(EventDraft.revokeKey(ada.verifyKey(), "Ada", "no, hers was"), bea, LATER.plusSeconds(1)));
        Roster both = inAnyOrder(mutual);
        assertThat(both.keys().status(ada.id())).isEqualTo(KeyRing.Status.REVOKED);
        assertThat(both.keys().status(bea.id())).isEqualTo(KeyRing.Status.REVOKED);
        assertThat(both.keys().status(eve.id())).isEqualTo(KeyRing.Status.KNOWN);
        Roster chain = inAnyOrder(List.of(
                known(ada),
                known(bea),
                known(eve),
                parcel(EventDraft.revokeKey(bea.verifyKey(), "Bea", "stolen"), ada, LATER),
                parcel(EventDraft.revokeKey(eve.verifyKey(), "Eve", "revoked by a revoked key"), bea, LATER)));
        assertThat(chain.keys().status(ada.id())).isEqualTo(KeyRing.Status.KNOWN);
        assertThat(chain.keys().status(eve.id())).isEqualTo(KeyRing.Status.REVOKED);
        Roster unknown = inAnyOrder(
                List.of(known(ada), parcel(EventDraft.revokeKey(ada.verifyKey(), "Ada", "by a stranger"), eve, LATER)));
        assertThat(unknown.keys().status(ada.id())).isEqualTo(KeyRing.Status.KNOWN);
    }

    @Test
    void nobodyElseNamesAKey() {
        Parcel slander =
                parcel(EventDraft.addKey(ada.verifyKey(), "Mallory", ""), eve, Shows.START.minusSeconds(9_000));
        Roster all = inAnyOrder(List.of(known(ada), slander));
        assertThat(all.keys().entries())
                .filteredOn(entry -> entry.id().equals(ada.id()))
                .extracting("name")
                .containsExactly("Ada");
    }

    @Test
    void aSettlementLiftsNoWithdrawalAndARestorationNoTag() {
        RosterEvent entered = desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        RosterEvent withdrawn = desk.withdraw("S-014", "loan");
        String drive = String.valueOf(entered.drive());
        roster.take(List.of(
                parcel(EventDraft.settle(drive, null, List.of(withdrawn.ref()), "sneaky"), ada, LATER),
                parcel(EventDraft.restore(drive, List.of(entered.ref()), "sneaky"), ada, LATER)));
        assertThat(standing("S-014")).isEqualTo(Standing.WITHDRAWN);
        assertThat(roster.history("S-014")).noneMatch(HistoryEntry::lifted);
    }

    @Test
    void aLineCheckRenamedGivesNoTrust() {
        Shows renamed = Shows.lineCheck("B4RN-0001", Shows.START);
        PlanFacts brief = renamed.sketch.plan;
        for (PlanFacts plan : List.of(
                named(brief, PlanName.FULL_SHOW),
                named(brief, PlanName.SOUND_CHECK),
                PlanFacts.of(PlanName.SOUND_CHECK, false, 300, 3600, 600, brief.bytesPlanned()),
                new PlanFacts("full-show", false, 0, 86_400, 10_800, 60, 1L << 40, null, true, 0, 0, 0, 0, ""))) {
            renamed.sketch.plan = plan;
            renamed.endedAt = renamed.endedAt.plusSeconds(1);
            desk.enter(renamed.signed(ada), "S-014");
            assertThat(standing("S-014")).as(plan.toString()).isEqualTo(Standing.UNPROVEN);
        }
        assertThat(roster.drive("S-014", BARN).drive().doubtful()).isPositive();
    }

    @Test
    void aSimulatedRunOfARealDriveGivesNoTrust() {
        Shows simulated = Shows.pass("B4RN-0001", Shows.START);
        simulated.sketch.ioMode = IoMode.SIMULATED;
        desk.enter(simulated.signed(ada), "S-014");
        assertThat(standing("S-014")).isEqualTo(Standing.UNPROVEN);
        Shows honest = Shows.pass("seed 7", Shows.START).hardware("simulated", "steady-stick");
        honest.sketch.ioMode = IoMode.SIMULATED;
        desk.enter(honest.signed(ada), "S-015");
        assertThat(standing("S-015")).isEqualTo(Standing.CLEARED);
    }

    @Test
    void oneBadParcelSpoilsNoOther() {
        Shows late = Shows.pass("B4RN-0002", Shows.START);
        late.endedAt = Instant.parse("9000-01-01T00:00:00Z");
        List<Parcel> parcels = List.of(
                known(ada),
                entered(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-001", ada, LATER),
                entered(late.signed(ada), "S-002", ada, LATER),
                parcel(EventDraft.note("d-00000000000000000000", "hello"), ada, LATER));
        Receipt receipt = roster.take(parcels);
        assertThat(receipt.taken()).isEqualTo(3);
        assertThat(receipt.refused()).singleElement().satisfies(refused -> {
            assertThat(refused.event()).isEqualTo(parcels.get(2).event().ref());
            assertThat(refused.why()).contains("1970 to 2199");
        });
        String json = new String(EventJson.bytes(parcels.get(3).event()), UTF_8);
        assertThatThrownBy(() -> EventJson.read(json.replace("hello", "\\ud800").getBytes(UTF_8)))
                .isInstanceOf(Problem.class)
                .hasMessageContaining("half a character");
    }

    @Test
    void aTextThatADatabaseDoesNotTakeKeepsNothingBack() {
        SignedRecord odd = Shows.pass("B4RN-\u0000\u0001-0001", Shows.START)
                .hardware("Makers\u0000", "Stick \ud83d\ude80\u0000")
                .signed(ada);
        List<Parcel> parcels = new ArrayList<>(List.of(
                known(ada),
                entered(odd, "S-014", ada, LATER),
                entered(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-015", ada, LATER)));
        String drive = String.valueOf(parcels.get(1).event().drive());
        parcels.add(parcel(EventDraft.note(drive, "a\u0000b:\u0000-1:"), ada, LATER));
        parcels.add(parcel(EventDraft.withdraw(drive, "\u0000\u0007"), ada, LATER));
        assertThat(roster.take(parcels).refused()).isEmpty();
        Roster all = inAnyOrder(parcels);
        assertThat(all.board(BoardQuery.all(BARN)).rows()).hasSize(2);
        assertThat(all.drive("S-014", BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        assertThat(all.drive("S-014", BARN).drive().lastNote()).isEqualTo("a\u0000b:\u0000-1:");
        assertThat(all.drive("S-015", BARN).standing().standing()).isEqualTo(Standing.CLEARED);
    }

    /** What somebody with a tool does to the database itself. */
    private static void sql(RosterPlace place, String statement) {
        String url = place.file() == null ? String.valueOf(place.url()) : "jdbc:sqlite:" + place.file();
        try (Connection connection = DriverManager.getConnection(url, place.user(), place.password());
                Statement one = connection.createStatement()) {
            assertThat(one.executeUpdate(statement)).isPositive();
        } catch (SQLException e) {
            throw new IllegalStateException(statement, e);
        }
    }

    private Roster at(RosterPlace place) {
        Roster one = Roster.open(place, () -> now);
        opened.add(one);
        return one;
    }

    @Test
    void aRowThatIsNoEventIsSetAsideByNameAndMended() throws IOException {
        RosterPlace place = place();
        Roster damaged = at(place);
        damaged.desk(ada).enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        RosterEvent note = damaged.desk(ada).note("S-014", "handle broken");
        roster.take(damaged.peer().pull(damaged.peer().refs("", 100)));
        damaged.desk(ada).note("S-014", "handle mended");
        damaged.close();
        sql(place, "UPDATE event SET body = '{\"kind\":' WHERE ref = '" + note.ref() + "'");
        Roster there = at(place);
        assertThat(there.board(BoardQuery.all(BARN)).rows())
                .extracting(row -> row.standing().standing())
                .containsExactly(Standing.CLEARED);
        assertThat(there.history("S-014")).hasSize(2);
        assertThat(there.setAside()).containsExactly(note.ref());
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        assertThat(ExchangeFile.write(there.peer(), file)).isEqualTo(3);
        assertThat(Tally.of(there.peer()).broken()).containsExactly(note.ref());
        there.rebuild();
        Roster empty = fresh();
        Sync.Result alone = Sync.run(there.peer(), empty.peer(), (fetched, handedOver) -> {});
        assertThat(alone.same()).isFalse();
        assertThat(alone.fetched().refused()).extracting(Receipt.Refusal::event).containsExactly(note.ref());
        Sync.Result mended = Sync.run(there.peer(), roster.peer(), (fetched, handedOver) -> {});
        assertThat(mended.same()).isTrue();
        assertThat(there.setAside()).isEmpty();
        assertThat(there.history("S-014")).hasSize(3);
        assertThat(there.peer().refs("", 100))
                .isEqualTo(roster.peer().refs("", 100))
                .hasSize(4);
    }

    @Test
    void anExportMendsARowAsWell() throws IOException {
        RosterPlace place = place();
        Roster damaged = at(place);
        damaged.desk(ada).enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        RosterEvent withdrawn = damaged.desk(ada).withdraw("S-014", "loan");
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        ExchangeFile.write(damaged.peer(), file);
        damaged.close();
        sql(place, "UPDATE event SET body = '' WHERE ref = '" + withdrawn.ref() + "'");
        sql(place, "UPDATE record_body SET gzip = " + (place.file() == null ? "'\\x00'" : "x'00'"));
        Roster there = at(place);
        there.rebuild();
        assertThat(there.setAside()).hasSize(2);
        assertThat(there.board(BoardQuery.all(BARN)).rows())
                .extracting(row -> row.standing().standing())
                .containsExactly(Standing.WITHDRAWN);
        assertThat(ExchangeFile.read(new ByteArrayInputStream(file.toByteArray()), there.peer(), true)
                        .receipt()
                        .taken())
                .isEqualTo(2);
        assertThat(there.setAside()).isEmpty();
        assertThat(there.drive("S-014", BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        assertThat(Tally.of(there.peer()).whole()).isTrue();
    }

    @Test
    void whatFollowsFromEventsIsNotBelievedWhereSomebodyChangedIt() {
        RosterPlace place = place();
        Roster first = at(place);
        first.desk(ada).enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        String failed = String.valueOf(first.desk(ada)
                .enter(Shows.fail("B4RN-0002", Shows.START).signed(ada), "S-015")
                .drive());
        first.desk(ada).enter(Shows.pass("B4RN-0003", Shows.START).signed(ada), "S-016");
        first.desk(ada).withdraw("S-014", "loan");
        first.close();
        sql(place, "UPDATE drive SET state = REPLACE(state, '4:loan', '4:Loan') WHERE state LIKE '%4:loan%'");
        assertThat(at(place).drive("S-014", BARN).standing().why()).endsWith(": loan");
        sql(place, "DELETE FROM drive");
        assertThat(at(place).drive("S-014", BARN).standing().standing()).isEqualTo(Standing.WITHDRAWN);
        sql(place, "UPDATE recorded_session SET session = REPLACE(session, '7:barn-32', '7:eves-32')");
        assertThat(at(place).drive("S-016", null).standing().standing()).isEqualTo(Standing.CLEARED);
        sql(place, "DELETE FROM recorded_session");
        assertThat(at(place).drive("S-016", BARN).standing().standing()).isEqualTo(Standing.CLEARED);
        assertThat(at(place).drive("S-015", BARN).standing().standing()).isEqualTo(Standing.FAILED);
        sql(place, "UPDATE drive SET state = SUBSTR(state, 1, 20)");
        Roster cut = at(place);
        assertThat(cut.take(List.of(parcel(EventDraft.note(failed, "taken over a row that was cut"), ada, LATER)))
                        .taken())
                .isEqualTo(1);
        assertThat(at(place).drive("S-015", BARN).standing().standing()).isEqualTo(Standing.FAILED);
        sql(place, "UPDATE event SET digest = REPLACE(digest, '\"FAIL\"', '\"PASS\"') WHERE digest IS NOT NULL");
        Roster last = at(place);
        last.desk(ada).note("S-015", "worked out anew");
        assertThat(last.drive("S-015", BARN).standing().standing()).isEqualTo(Standing.FAILED);
    }

    @Test
    void anOldRosterIsReadAndItsNamesAreMadeWhole() {
        RosterPlace place = place();
        Roster young = fresh();
        RosterEvent entered =
                young.desk(ada).enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        RosterEvent withdrawn = young.desk(ada).withdraw("S-014", "loan");
        Parcel lifted = parcel(
                EventDraft.restore(
                        String.valueOf(entered.drive()),
                        List.of(EventName.old(withdrawn.ref())),
                        "written by an old one"),
                ada,
                LATER);
        young.take(List.of(lifted));
        old(place, young.peer().pull(young.peer().refs("", 100)));
        Roster opened = at(place);
        assertThat(opened.peer().refs("", 100))
                .isEqualTo(young.peer().refs("", 100))
                .hasSize(4);
        assertThat(opened.setAside()).isEmpty();
        assertThat(opened.board(BoardQuery.all(BARN)).rows())
                .isEqualTo(young.board(BoardQuery.all(BARN)).rows())
                .extracting(row -> row.standing().standing())
                .containsExactly(Standing.CLEARED);
    }

    /** A roster as the first version of its tables held it, with names of 12 digits. */
    private static void old(RosterPlace place, List<Parcel> parcels) {
        boolean lite = place.file() != null;
        if (lite) {
            try {
                java.nio.file.Files.createDirectories(
                        Objects.requireNonNull(place.file()).getParent());
            } catch (IOException e) {
                throw new java.io.UncheckedIOException(e);
            }
        }
        String url = lite ? "jdbc:sqlite:" + place.file() : String.valueOf(place.url());
        Flyway.configure(TruthContract.class.getClassLoader())
                .dataSource(url, place.user(), place.password())
                .locations("classpath:tracksoak/roster/migration")
                .table("roster_schema_history")
                .placeholders(Map.of("blob", lite ? "BLOB" : "BYTEA", "longer_names", ""))
                .target("1")
                .load()
                .migrate();
        try (Connection connection = DriverManager.getConnection(url, place.user(), place.password());
                PreparedStatement event = connection.prepareStatement(
                        "INSERT INTO event (ref, version, kind, drive, author, record_holds, body) VALUES (?, 1, ?, ?,"
                                + " ?, 0, ?)");
                PreparedStatement body =
                        connection.prepareStatement("INSERT INTO record_body (sha256, gzip) VALUES (?, ?)")) {
            for (Parcel parcel : parcels) {
                event.setString(1, EventName.old(parcel.event().ref()));
                event.setString(2, parcel.event().kind().word());
                event.setString(3, parcel.event().drive());
                event.setString(4, parcel.event().keyId());
                event.setString(5, new String(EventJson.bytes(parcel.event()), UTF_8));
                event.executeUpdate();
                if (parcel.event().record() != null) {
                    body.setString(1, parcel.event().record().sha256());
                    body.setBytes(2, parcel.gzip());
                    body.executeUpdate();
                }
            }
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
    }

    private static PlanFacts named(PlanFacts plan, PlanName name) {
        return PlanFacts.of(name, false, plan.takeBeforeS(), plan.fillCapS(), plan.takeAfterS(), plan.bytesPlanned());
    }

    private static Session valid(Session like, String name, int days) {
        return like.but().name(name).validDays(days).build();
    }
}
