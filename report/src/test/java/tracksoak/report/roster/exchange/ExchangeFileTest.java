package tracksoak.report.roster.exchange;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Base64;
import java.util.List;
import java.util.Random;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.store.RosterPlace;

/** A roster on a stick, and what a stranger may have done to it. */
class ExchangeFileTest {

    private final TesterKey ada = TesterKey.create("Ada");
    private Roster from;
    private Roster to;

    @BeforeEach
    void open(@TempDir Path folder) {
        from = Roster.open(RosterPlace.sqlite(folder.resolve("from.db")), () -> Shows.START);
        to = Roster.open(RosterPlace.sqlite(folder.resolve("to.db")), () -> Shows.START);
        from.desk(ada).enter(Shows.pass("B4RN-0001", Shows.START).signed(ada), "S-014");
        from.desk(ada).note("S-014", "tab\tand line\nend, \u202e and <script>");
        from.desk(ada).enter(Shows.fail("B4RN-0002", Shows.START).signed(ada), "S-015");
    }

    @AfterEach
    void close() {
        from.close();
        to.close();
    }

    private byte[] exported() throws IOException {
        ByteArrayOutputStream stick = new ByteArrayOutputStream();
        assertThat(ExchangeFile.write(from.peer(), stick)).isEqualTo(4);
        return stick.toByteArray();
    }

    private ExchangeFile.Result load(byte[] file, boolean newKeys) throws IOException {
        return ExchangeFile.read(new ByteArrayInputStream(file), to.peer(), newKeys);
    }

    @Test
    void whatIsExportedIsImportedOnceAndAgain() throws IOException {
        byte[] file = exported();
        assertThat(load(file, true).receipt()).isEqualTo(new Receipt(4, 0, List.of()));
        assertThat(load(file, true).receipt()).isEqualTo(new Receipt(0, 4, List.of()));
        assertThat(to.board(BoardQuery.all(null)).rows())
                .isEqualTo(from.board(BoardQuery.all(null)).rows());
        ByteArrayOutputStream again = new ByteArrayOutputStream();
        ExchangeFile.write(to.peer(), again);
        assertThat(again.toByteArray()).isEqualTo(file);
    }

    @Test
    void aStrangersKeyIsLeftOutUnlessAskedFor() throws IOException {
        byte[] file = exported();
        ExchangeFile.Result result = load(file, false);
        assertThat(result.keys()).containsExactly(ada.id());
        assertThat(to.board(BoardQuery.all(null)).rows())
                .extracting(row -> row.standing().standing().word())
                .containsOnly("unproven");
        assertThat(load(file, true).receipt().taken()).isEqualTo(1);
        assertThat(to.drive("S-014", null).standing().standing().word()).isEqualTo("cleared");
    }

    /** Four events, one of them a key: what came in before the damage must be told with it. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "something follows its last line",
                "its last line is damaged",
                "its events are not those that were exported",
                "it has a line longer than",
                "it is cut short"
            })
    void whereItEndsInAnErrorItSaysWhatWasTakenAndLeftOut(String why) throws IOException {
        String file = new String(exported(), UTF_8);
        String events = file.substring(0, file.indexOf("{\"events\":"));
        String damaged = switch (why) {
            case "something follows its last line" -> file + "\n";
            case "its last line is damaged" -> events + "{\"events\":4,\n";
            case "its events are not those that were exported" -> events + "{\"events\":5}\n";
            case "it has a line longer than" -> file + "a".repeat(ParcelLines.LONGEST + 1);
            default -> events;
        };
        for (String counts : List.of("3 new, 0 known already", "0 new, 3 known already")) {
            assertThatThrownBy(() -> load(damaged.getBytes(UTF_8), false))
                    .hasMessageContaining(why)
                    .hasMessageContaining("what is whole in it was taken: " + counts)
                    .hasMessageContaining("keys left out, whose records give no trust: " + ada.id());
        }
        assertThat(to.events()).isEqualTo(3);
    }

    @Test
    void aFileCutAnywhereIsSaidAndHarmless() throws IOException {
        byte[] file = exported();
        Random random = new Random(5);
        for (int i = 0; i < 15; i++) {
            byte[] cut = Arrays.copyOf(file, random.nextInt(file.length));
            assertThat(catchThrowableOfType(Problem.class, () -> load(cut, true))
                            .kind())
                    .isEqualTo(Kind.REFUSED);
        }
        load(file, true);
        assertThat(to.events()).isEqualTo(4);
    }

    @Test
    void noChangedByteGetsAnythingIn() throws IOException {
        byte[] file = exported();
        Random random = new Random(6);
        List<String> refs = from.peer().refs("", 100);
        for (int i = 0; i < 60; i++) {
            byte[] bad = file.clone();
            bad[random.nextInt(bad.length)] ^= (byte) (1 << random.nextInt(8));
            try {
                load(bad, true);
            } catch (Problem e) {
                assertThat(e.kind()).isEqualTo(Kind.REFUSED);
            }
        }
        assertThat(refs).containsAll(to.peer().refs("", 100));
    }

    @Test
    void whatIsNoExchangeIsRefused() {
        for (String text :
                new String[] {"", "\n", "{}", "{\"schema\":\"tracksoak/roster-exchange/2\"}\n", "PK\u0003"}) {
            assertThatThrownBy(() -> load(text.getBytes(UTF_8), true))
                    .isInstanceOf(Problem.class)
                    .hasMessageContaining("first line");
        }
    }

    @Test
    void anEndlessLineIsBounded() {
        byte[] head = ("{\"schema\":\"" + ExchangeFile.SCHEMA + "\"}\n").getBytes(UTF_8);
        InputStream endless = new SequenceInputStream(new ByteArrayInputStream(head), new InputStream() {
            @Override
            public int read() {
                return 'a';
            }

            @Override
            public int read(byte[] into, int offset, int length) {
                Arrays.fill(into, offset, offset + length, (byte) 'a');
                return length;
            }
        });
        assertThatThrownBy(() -> ExchangeFile.read(endless, to.peer(), true)).hasMessageContaining("longer than");
    }

    private Receipt push(Parcel... parcels) {
        return to.peer().push(List.of(parcels));
    }

    @Test
    void aRecordThatUnpacksWithoutEndIsBounded() throws IOException {
        SignedRecord record = Shows.pass("B4RN-0003", Shows.START).signed(ada);
        ByteArrayOutputStream bomb = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(bomb)) {
            for (int i = 0; i < 64; i++) {
                gzip.write(new byte[1 << 20]);
            }
        }
        RosterEvent event = EventDraft.record(record, null).sign(ada, Shows.START);
        assertThat(push(new Parcel(event, bomb.toByteArray())).refused())
                .singleElement()
                .extracting(Receipt.Refusal::why)
                .asString()
                .contains("larger than");
    }

    @Test
    void neitherHalfOfAParcelComesAlone() {
        SignedRecord record = Shows.pass("B4RN-0003", Shows.START).signed(ada);
        RosterEvent event = EventDraft.record(record, null).sign(ada, Shows.START);
        RosterEvent note = EventDraft.note(String.valueOf(event.drive()), "x").sign(ada, Shows.START);
        byte[] other =
                Intake.pack(Shows.pass("B4RN-0004", Shows.START).signed(ada).canonical());
        assertThat(push(new Parcel(event, null)).refused()).hasSize(1);
        assertThat(push(new Parcel(note, Intake.pack(record.canonical()))).refused())
                .hasSize(1);
        assertThat(push(new Parcel(event, other)).refused()).hasSize(1);
        assertThat(push(new Parcel(event, new byte[] {1, 2, 3})).refused()).hasSize(1);
        assertThat(to.events()).isZero();
        assertThat(push(new Parcel(event, Intake.pack(record.canonical()))).taken())
                .isEqualTo(1);
    }

    @Test
    void onePartyCannotSpeakForAnother() {
        RosterEvent note = EventDraft.note("d-00000000000000000000", "hello").sign(ada, Shows.START);
        String json = new String(EventJson.bytes(note), UTF_8);
        String key = TesterKey.create("Bea").verifyKey().text();
        List<String> forged = new ArrayList<>(List.of(
                json.replace("hello", "howdy"),
                json.replace("\"Ada\"", "\"Bea\""),
                json.replace(ada.verifyKey().text(), key),
                json.replace("note-written", "drive-withdrawn")));
        for (String text : forged) {
            Parcel parcel = new Parcel(EventJson.read(text.getBytes(UTF_8)), null);
            assertThat(push(parcel).refused()).hasSize(1);
        }
        assertThat(push(new Parcel(note, null)).taken()).isEqualTo(1);
    }

    @Test
    void eventsOutOfBoundsAreNotEvenRead() {
        RosterEvent note = EventDraft.note("d-00000000000000000000", "hello").sign(ada, Shows.START);
        String json = new String(EventJson.bytes(note), UTF_8);
        for (String text : new String[] {
            json.replace("hello", "h".repeat(1001)),
            json.replace("hello", ""),
            json.replace("d-00000000000000000000", "../../etc"),
            json.replace("note-written", "drop-table"),
            json.replace("event/1", "event/2"),
            json.replace("2026-02-14", "2026-02-15"),
            json.replace("2026-02-14T18:00:00Z", "yesterday"),
            json.replace("\"why\"", "\"why\":\"a\",\"why\""),
            json.replace("\"why\"", "\"extra\":1,\"why\""),
            json.replace("\"by\":\"Ada\"", "\"by\":\"\\u202eAda\""),
            json.replace("\"by\":\"Ada\"", "\"by\":7"),
            json.replace("\"by\":\"Ada\",", ""),
            json.replace("\"why\"", "\"lifts\":[[[[[[[[[1]]]]]]]]],\"why\""),
            json.replace("\"why\"", "\"tag\":\"S-014\",\"why\""),
            json + "x",
            "[" + json + "]",
            "null",
            "",
            "[".repeat(60_000),
            " ".repeat(EventJson.MOST_BYTES) + json
        }) {
            assertThatThrownBy(() -> EventJson.read(text.getBytes(UTF_8)))
                    .as(text.length() > 900 ? "long" : text)
                    .isInstanceOf(Problem.class);
        }
        assertThat(EventJson.read(json.getBytes(UTF_8))).isEqualTo(note);
    }

    @Test
    void linesCarryWhatTheyAreGiven() {
        for (Parcel parcel : from.peer().pull(from.peer().refs("", 10))) {
            byte[] line = ParcelLines.line(parcel);
            Parcel read = ParcelLines.read(Arrays.copyOf(line, line.length - 1));
            assertThat(read.event()).isEqualTo(parcel.event());
            assertThat(read.gzip()).isEqualTo(parcel.gzip());
        }
        String event = new String(
                EventJson.bytes(EventDraft.note("d-00000000000000000000", "x").sign(ada, Shows.START)), UTF_8);
        assertThatThrownBy(() -> ParcelLines.read(
                        (event + "\t" + "?" + Base64.getEncoder().encodeToString(new byte[9])).getBytes(UTF_8)))
                .hasMessageContaining("base64");
    }
}
