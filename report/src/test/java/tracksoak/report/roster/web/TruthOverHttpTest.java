package tracksoak.report.roster.web;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.ParcelLines;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.standing.Standing;

/** What a laptop with a token can hand over, and cannot make the table say. Named in docs/roster.md like {@link AttacksTest}. */
class TruthOverHttpTest {

    private static final TesterKey EVE = TesterKey.create("Eve");

    @TempDir
    Path folder;

    private Served served;

    @BeforeEach
    void start() {
        served = new Served(folder);
    }

    @AfterEach
    void nothingBrokeInside() {
        served.close();
        assertThat(served.failures).isEmpty();
    }

    private static String line(Parcel parcel) {
        return new String(ParcelLines.line(parcel), UTF_8);
    }

    private static Parcel note(String text) {
        return new Parcel(EventDraft.note("d-00000000000000000000", text).sign(EVE, Shows.START), null);
    }

    private HttpResponse<String> take(String... lines) {
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        for (String line : lines) {
            body.writeBytes(line.getBytes(UTF_8));
        }
        return served.post("/sync/1/take", body.toByteArray(), "Authorization", served.bearer());
    }

    @Test
    void aFailHandedOverWithoutItsSignatureStaysAFail() {
        served.desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(served.key), "S-014");
        SignedRecord fail = Shows.fail("B4RN-0001", Shows.START.plusSeconds(60)).signed(served.key);
        served.desk.enter(fail, null);
        SignedRecord bare = SignedRecord.kept(fail.canonical(), fail.by(), fail.key(), new byte[0]);
        RosterEvent event = EventDraft.record(bare, null).sign(EVE, Shows.START.minusSeconds(86_400));
        assertThat(take(line(new Parcel(event, Intake.pack(fail.canonical())))).body())
                .contains("\"taken\":1");
        assertThat(served.roster.drive("S-014", null).standing().standing()).isEqualTo(Standing.FAILED);
        assertThat(served.get("/drives/S-014").body()).contains("failed");
    }

    @Test
    void oneBadEventIsRefusedByItself() {
        Shows late = Shows.pass("B4RN-0002", Shows.START);
        late.endedAt = Instant.parse("9000-01-01T00:00:00Z");
        SignedRecord record = late.signed(EVE);
        RosterEvent extreme = EventDraft.record(record, null).sign(EVE, Shows.START);
        String half = line(note("hello")).replace("hello", "\\ud800");
        String spare = line(note("spare")).replace("\"signature\":\"", "\"signature\":\"=");
        HttpResponse<String> answer = take(
                line(note("one")),
                half,
                line(new Parcel(extreme, Intake.pack(record.canonical()))),
                "{\"schema\":\"nonsense\"}\n",
                spare,
                line(note("two")));
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body())
                .contains(
                        "\"taken\":2",
                        "event 2 of the body",
                        "event 4 of the body",
                        EventName.of(spare.strip().getBytes(UTF_8)).orElseThrow(),
                        extreme.ref())
                .contains("half a character", "1970 to 2199");
    }

    /** By its name and with the true reason, alone as beside others: {@code spare} has an id, {@code "nonsense"} none. */
    @ParameterizedTest
    @CsvSource({
        "2026-02-14T18:00:00Z, 2026-02-14T18:00:00.000Z, is to be written 2026-02-14T18:00:00Z",
        "2026-02-14T18:00:00Z, 2200-01-01T00:00:00.000Z, it is dated 2200-01-01T00:00:00Z; 2000 to 2199 is possible",
        "2026-02-14T18:00:00Z, 2026-02-14T18:00:00.0001Z, is finer than a millisecond",
        "2026-02-14T18:00:00Z, yesterday, its time yesterday is none"
    })
    void anEventAloneIsRefusedByItsNameAndWithTheReason(String time, String instead, String why) {
        String line = line(note("hello"));
        assertThat(line).contains(time);
        String bad = line.replace("\"at\":\"" + time, "\"at\":\"" + instead);
        HttpResponse<String> answer = take(bad);
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body())
                .contains(why.replace(";", ", and"))
                .contains(EventName.of(bad.strip().getBytes(UTF_8)).orElseThrow());
        assertThat(take(line.replace("hello", "hello ".repeat(10_000))).body())
                .contains("a note or a reason has at most 1,000 characters")
                .doesNotContain("StreamRead");
        assertThat(take("{\"schema\":\"nonsense\"}\n").body())
                .contains("event 1 of the body", "its schema is nonsense");
    }

    @Test
    void aSyncEndsBySayingWhatWasRefused() {
        Shows late = Shows.pass("B4RN-0002", Shows.START);
        RosterEvent good = served.desk.enter(late.signed(served.key), "S-014");
        RemoteRoster there = new RemoteRoster(served.base(), served.token.text(), null);
        try (tracksoak.report.roster.Roster here = tracksoak.report.roster.Roster.open(
                tracksoak.report.roster.store.RosterPlace.sqlite(folder.resolve("here.db")), () -> served.now)) {
            assertThat(Sync.run(here.peer(), there, (fetched, handedOver) -> {}).same())
                    .isTrue();
            assertThat(here.peer().refs("", 10)).contains(good.ref());
            assertThat(there.pull(List.of(good.ref()))).hasSize(1);
        }
    }
}
