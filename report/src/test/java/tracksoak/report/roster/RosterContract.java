package tracksoak.report.roster;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.sign.SignatureState;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.store.RosterPlace;

/** What a crew does with a roster, from the first record to the last withdrawal; every store must do the same. */
abstract class RosterContract {

    private static final Session BARN = RunSketch.session("barn-32", 32);

    private final TesterKey ada = TesterKey.create("Ada");
    private Instant now = Shows.START.plusSeconds(60);
    private Roster roster;
    private RosterDesk desk;

    /** An empty place. */
    abstract RosterPlace place();

    @BeforeEach
    void open() {
        roster = Roster.open(place(), () -> now);
        desk = roster.desk(ada);
    }

    @AfterEach
    void close() {
        roster.close();
    }

    private Standing standing(String drive) {
        return roster.drive(drive, BARN).standing().standing();
    }

    @Test
    void aFreshRosterIsEmpty() {
        assertThat(roster.board(BoardQuery.all(BARN)).rows()).isEmpty();
        assertThat(roster.keys().entries()).isEmpty();
    }

    @Test
    void aPassMakesADriveTrustedUntilItFallsDue() {
        SignedRecord record = Shows.pass("B4RN-0001", Shows.START).signed(ada);
        RosterEvent event = desk.enter(record, "s-014");
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
        BoardRow row = roster.board(BoardQuery.tonight(BARN)).rows().get(0);
        assertThat(row.label()).isEqualTo("S-014");
        assertThat(row.tracksCarried()).isEqualTo(32);
        assertThat(row.standing().validUntil()).isEqualTo(Shows.START.plus(Duration.ofDays(90)));
        assertThat(roster.record(event.ref())).isEqualTo(record.record());
        now = Shows.START.plus(Duration.ofDays(90));
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
        now = now.plusMillis(1);
        assertThat(standing("S-014")).isEqualTo(Standing.DUE);
        assertThat(roster.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
    }

    @Test
    void aLaterFailEndsTrustAndALaterPassBringsItBack() {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        desk.enter(Shows.fail("B4RN-0001", Shows.START.plusSeconds(10)).signed(ada), null);
        assertThat(standing("S-014")).isEqualTo(Standing.FAILED);
        desk.enter(Shows.pass("B4RN-0001", Shows.START.minusSeconds(10)).signed(ada), null);
        assertThat(standing("S-014")).isEqualTo(Standing.FAILED);
        desk.enter(Shows.pass("B4RN-0001", Shows.START.plusSeconds(20)).signed(ada), null);
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
        assertThat(roster.history("S-014")).hasSize(4);
    }

    /** A laptop holds a server to it: what a receipt does not account for may be lost. */
    @Test
    void aReceiptAccountsForEveryEventHandedOverThoseGivenTwiceToo() {
        Parcel good =
                new Parcel(EventDraft.note("d-00000000000000000000", "hello").sign(ada, Shows.START), null);
        Parcel wrong = new Parcel(good.event(), new byte[3]);
        Receipt receipt = roster.peer().push(List.of(good, good, wrong, good, wrong));
        assertThat(receipt.taken()).isEqualTo(1);
        assertThat(receipt.known()).isEqualTo(2);
        assertThat(receipt.refused()).hasSize(2);
    }

    @Test
    void onlyAPersonWithdrawsAndRestores() {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        desk.withdraw("S-014", "fell off the truck");
        assertThat(standing("S-014")).isEqualTo(Standing.WITHDRAWN);
        assertThat(roster.drive("S-014", BARN).standing().why()).contains("fell off the truck", "Ada");
        desk.enter(Shows.pass("B4RN-0001", Shows.START.plusSeconds(5)).signed(ada), null);
        assertThat(standing("S-014")).isEqualTo(Standing.WITHDRAWN);
        desk.restore("S-014", "checked, it was the case only");
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
        assertThatThrownBy(() -> desk.restore("S-014", "again")).hasMessageContaining("not withdrawn");
        assertThat(roster.history("S-014"))
                .extracting(entry -> entry.event().kind())
                .contains(EventKind.DRIVE_WITHDRAWN, EventKind.DRIVE_RESTORED);
    }

    @Test
    void aRecordOfARevokedKeyGivesNoTrustAndItsFailStays() {
        TesterKey bea = TesterKey.create("Bea");
        roster.desk(bea).enter(Shows.pass("B4RN-0001", Shows.START).signed(bea), "S-014");
        roster.desk(bea).enter(Shows.fail("B4RN-0002", Shows.START).signed(bea), "S-015");
        desk.note("S-014", "looks new");
        desk.revokeKey(bea.id(), "laptop stolen");
        assertThat(standing("S-014")).isEqualTo(Standing.UNPROVEN);
        assertThat(standing("S-015")).isEqualTo(Standing.FAILED);
        assertThat(roster.history("S-014"))
                .filteredOn(entry -> entry.digest() != null)
                .extracting(HistoryEntry::record)
                .containsExactly(SignatureState.REVOKED);
        assertThatThrownBy(() -> roster.desk(bea).note("S-014", "me again")).hasMessageContaining("revoked");
    }

    @Test
    void aRecordOfAnUnknownKeyGivesTrustOnceTheKeyIsKnown() {
        TesterKey bea = TesterKey.create("Bea");
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(bea), "S-014");
        assertThat(standing("S-014")).isEqualTo(Standing.UNPROVEN);
        assertThat(roster.drive("S-014", BARN).drive().unsigned()).isEqualTo(1);
        desk.addKey(bea.verifyKey(), "Bea", "read out over the phone");
        assertThat(standing("S-014")).isEqualTo(Standing.CLEARED);
    }

    @Test
    void conflictsOfTagsAreShownAndSettledByAPerson() {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        desk.enter(Shows.pass("B4RN-0002", Shows.START).signed(ada), "S-014");
        assertThat(roster.conflicts()).extracting(Conflict::kind).containsExactly(Conflict.Kind.TAG_ON_SEVERAL_DRIVES);
        assertThat(roster.board(BoardQuery.tonight(BARN)).rows()).isEmpty();
        List<String> ids = roster.conflicts().get(0).drives();
        assertThatThrownBy(() -> roster.drive("S-014", BARN)).hasMessageContaining(ids.get(0));
        desk.settle("S-014", ids.get(0), "the label is on this one");
        assertThat(roster.conflicts()).isEmpty();
        assertThat(roster.drive("S-014", BARN).drive().id()).isEqualTo(ids.get(0));
        desk.tag(ids.get(0), "S-100", "new label");
        assertThat(roster.conflicts())
                .extracting(Conflict::kind)
                .containsExactly(Conflict.Kind.DRIVE_UNDER_SEVERAL_TAGS);
        desk.settle("S-100", ids.get(0), "the old label is off");
        assertThat(roster.conflicts()).isEmpty();
        assertThat(roster.drive(ids.get(0), BARN).label()).isEqualTo("S-100");
    }

    @Test
    void aRevokedKeyIsNotMadeKnownAgain() {
        TesterKey bea = TesterKey.create("Bea");
        desk.addKey(bea.verifyKey(), "Bea", "");
        desk.addKey(bea.verifyKey(), "Bea", "once more is harmless");
        desk.revokeKey(bea.verifyKey().id(), "lost");
        assertThatThrownBy(() -> desk.addKey(bea.verifyKey(), "Bea", "found again"))
                .hasMessageContaining("it was revoked, and a key once revoked stays so");
    }

    @Test
    void aTagThatNoDriveBearsIsASlipAndSettlesNothing() {
        String id =
                String.valueOf(desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014")
                        .drive());
        long before = roster.events();
        assertThatThrownBy(() -> desk.settle("S-0l4", id, "its label"))
                .hasMessageContaining("no drive bears it; did you mean S-014?")
                .hasMessageContaining("tracksoak roster tag " + id + " S-0L4");
        assertThat(roster.events()).isEqualTo(before);
    }

    @Test
    void anotherLetterLeadsToNoTagThatLooksLikeIt() {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-020");
        desk.enter(Shows.pass("B4RN-0002", Shows.START).signed(ada), "I");
        assertThat(roster.drive("s-020", BARN).label()).isEqualTo("S-020");
        assertThatThrownBy(() -> roster.drive(" ", BARN))
                .hasMessageContaining("is not known")
                .hasMessageNotContaining("did you mean");
        for (String typed : List.of("\u017F-020", "\u0131")) {
            assertThatThrownBy(() -> roster.drive(typed, BARN)).hasMessageContaining("is not known");
        }
        Shows unlike = Shows.pass("B4RN-0003", Shows.START);
        unlike.tag = "\u017F-020";
        RosterEvent named = desk.enter(unlike.signed(ada), null);
        assertThat(named.tag()).as("what a record holds is no tag either").isNull();
    }

    @Test
    void aTagIsNotSettledForARecordThatWasNotGivenIt() {
        String loose =
                String.valueOf(desk.enter(Shows.pass("00000000", Shows.START).signed(ada), null)
                        .drive());
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-020");
        assertThatThrownBy(() -> desk.settle("S-020", loose, "its label"))
                .as("no drive would bear it any more")
                .hasMessageContaining("tracksoak roster tag " + loose + " S-020");
        assertThat(roster.drive("S-020", BARN).drive().tags()).containsExactly("S-020");
    }

    @Test
    void aDriveWithoutASerialIsKnownByItsTag() {
        Shows first = Shows.pass("00000000", Shows.START);
        RosterEvent loose = desk.enter(first.signed(ada), null);
        String id = String.valueOf(loose.drive());
        assertThat(id).startsWith("u-");
        assertThat(roster.board(BoardQuery.all(BARN)).rows()).hasSize(1);
        desk.tag(id, "S-020", "label put on");
        assertThat(roster.board(BoardQuery.all(BARN)).rows())
                .extracting(BoardRow::label)
                .containsExactly("S-020");
        assertThat(standing("S-020")).isEqualTo(Standing.CLEARED);
        desk.enter(Shows.fail("00000000", Shows.START.plusSeconds(9)).signed(ada), "S-020");
        assertThat(standing("S-020")).isEqualTo(Standing.FAILED);
        assertThat(roster.board(BoardQuery.all(BARN)).rows()).hasSize(1);
        assertThatThrownBy(() -> desk.tag("S-020", "S-021", "x")).hasMessageContaining("no usable serial");
    }

    @Test
    void listsAreFilteredSortedAndCounted() {
        desk.enter(Shows.pass("B4RN-0003", Shows.START).signed(ada), "S-003");
        desk.enter(Shows.fail("B4RN-0001", Shows.START).signed(ada), "S-001");
        desk.enter(Shows.pass("B4RN-0002", Shows.START.plusSeconds(1)).signed(ada), "S-002");
        Board all = roster.board(BoardQuery.all(BARN));
        assertThat(all.rows()).extracting(BoardRow::label).containsExactly("S-001", "S-002", "S-003");
        assertThat(all.counts()).containsEntry(Standing.CLEARED, 2).containsEntry(Standing.FAILED, 1);
        assertThat(roster.board(BoardQuery.all(BARN).only(Set.of(Standing.FAILED)))
                        .rows())
                .extracting(BoardRow::label)
                .containsExactly("S-001");
        assertThat(roster.board(BoardQuery.all(BARN).with("b4rn-0003")).rows())
                .extracting(BoardRow::label)
                .containsExactly("S-003");
        assertThat(roster.board(BoardQuery.tonight(BARN).page(1, 1)).rows())
                .extracting(BoardRow::label)
                .containsExactly("S-003");
    }

    @Test
    void aListThatIsKeptFollowsTheClock() {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-001");
        Instant ahead = now.plus(Duration.ofHours(3));
        desk.enter(Shows.pass("B4RN-0002", ahead).signed(ada), "S-002");
        Instant due = Shows.START.plus(Duration.ofDays(90));
        Instant[] moments = {
            now,
            ahead.minus(Duration.ofHours(1)).minusMillis(1),
            ahead.minus(Duration.ofHours(1)),
            due,
            due.plusMillis(1),
            now,
            due.plus(Duration.ofDays(1))
        };
        String[] expected = {"S-001", "S-001", "S-001 S-002", "S-001 S-002", "S-002", "S-001", ""};
        for (int i = 0; i < moments.length; i++) {
            now = moments[i];
            assertThat(roster.board(BoardQuery.all(BARN).only(Set.of(Standing.CLEARED))).rows().stream()
                            .map(BoardRow::label)
                            .collect(java.util.stream.Collectors.joining(" ")))
                    .as("moment %d", i)
                    .isEqualTo(expected[i]);
        }
    }

    @Test
    void theSameRecordAgainChangesNothing() {
        SignedRecord record = Shows.pass("B4RN-0001", Shows.START).signed(ada);
        desk.enter(record, "S-014");
        now = Shows.START.plus(Duration.ofDays(100));
        desk.enter(record, "S-014");
        assertThat(standing("S-014")).isEqualTo(Standing.DUE);
        assertThat(roster.drive("S-014", BARN).drive().records()).isEqualTo(1);
    }

    @Test
    void aRebuildComesToTheSame() {
        desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        desk.withdraw("S-014", "loan");
        Board before = roster.board(BoardQuery.all(BARN));
        roster.rebuild();
        assertThat(roster.board(BoardQuery.all(BARN)).rows()).isEqualTo(before.rows());
    }

    @Test
    void nothingIsSaidByAClockThatCannotBeRight() {
        try (Roster early = Roster.open(place(), () -> Instant.parse("1970-01-01T00:04:00Z"))) {
            assertThatThrownBy(() -> early.desk(TesterKey.create("Ada"))
                            .addKey(TesterKey.create("Bea").verifyKey(), "Bea", ""))
                    .isInstanceOf(Problem.class)
                    .hasMessageContaining("this computer's clock says 1970-01-01 00:04 UTC")
                    .hasMessageContaining("set the clock");
        }
    }

    @Test
    void nobodyIsKnownByNoName() {
        assertThatThrownBy(() -> roster.drive("S-099", BARN))
                .isInstanceOf(Problem.class)
                .hasMessageContaining("S-099");
        assertThatThrownBy(() -> desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "../etc"))
                .isInstanceOf(Problem.class);
    }
}
