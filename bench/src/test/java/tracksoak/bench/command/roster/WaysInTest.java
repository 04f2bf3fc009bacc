package tracksoak.bench.command.roster;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.RosterAccess;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionToml;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Postgres;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.YoungRoster;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.ExchangeFile;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.ParcelLines;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.SyncPoint;

/**
 * The same attack by every way in (taken directly, {@code roster import}, a parcel over HTTP), into either database, seen as {@code roster
 * list}, {@code --tonight} and {@code keys} print it. Each set comes in twice, in both orders, and both must print the same bytes.
 */
class WaysInTest {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Session BARN = RunSketch.session("barn-32", 32);

    @RegisterExtension
    static final Postgres POSTGRES = new Postgres();

    @TempDir
    Path folder;

    private final TesterKey ada = TesterKey.create("Ada");
    private final TesterKey bea = TesterKey.create("Bea");
    private final TesterKey eve = TesterKey.create("Eve");
    private final Instant first = RosterAccess.clock().instant().minus(Duration.ofDays(20));
    private TestRooms rooms = new TestRooms(Path.of(""), List.of());
    private int made;

    enum Way {
        DIRECT,
        FILE,
        HTTP
    }

    enum Base {
        SQLITE,
        POSTGRES
    }

    static Stream<Arguments> ways() {
        return Stream.of(Base.values()).flatMap(base -> Stream.of(Way.values()).map(way -> Arguments.of(base, way)));
    }

    @BeforeEach
    void furnish() throws IOException {
        rooms = new TestRooms(Files.createDirectory(folder.resolve("host")), List.of());
        Files.createDirectories(rooms.sessionsFolder());
        Files.writeString(rooms.sessionsFolder().resolve("barn-32.toml"), SessionToml.write(BARN));
    }

    /** What is printed of a roster. */
    private record Said(JsonNode list, JsonNode barn, JsonNode tonight, JsonNode keys, List<String> sessions) {

        JsonNode drive(String tag) {
            return rows(list)
                    .filter(row -> row.get("tags").toString().contains('"' + tag + '"'))
                    .findFirst()
                    .orElseThrow(() -> new AssertionError(tag + " is not in " + list));
        }

        /** Standing for the barn's session by the first tag, or the id. */
        Map<String, String> standings() {
            Map<String, String> standings = new TreeMap<>();
            rows(barn)
                    .forEach(row -> standings.put(
                            row.at("/tags/0").asText(row.get("drive").asText()),
                            row.get("standing").asText()));
            return standings;
        }

        List<String> offered() {
            return rows(tonight).map(row -> row.at("/tags/0").asText()).sorted().toList();
        }

        boolean revoked(TesterKey key) {
            return StreamSupport.stream(keys.get("keys").spliterator(), false)
                    .anyMatch(one -> one.get("id").asText().equals(key.id())
                            && !one.get("revokedBy").asText().isEmpty());
        }

        private static Stream<JsonNode> rows(JsonNode list) {
            return StreamSupport.stream(list.get("drives").spliterator(), false);
        }
    }

    private Parcel known(TesterKey key) {
        return act(EventDraft.addKey(key.verifyKey(), key.name(), ""), key, 0);
    }

    private Parcel act(EventDraft draft, TesterKey author, int minute) {
        return new Parcel(draft.sign(author, first.plus(Duration.ofMinutes(minute))), null);
    }

    private Parcel entered(SignedRecord record, @Nullable String tag, TesterKey author) {
        RosterEvent event = EventDraft.record(record, tag).sign(author, first.plusSeconds(600 + made++));
        return new Parcel(event, Intake.pack(record.canonical()));
    }

    private static String drive(Parcel parcel) {
        return String.valueOf(parcel.event().drive());
    }

    private static List<String> lines(List<Parcel> parcels) {
        return parcels.stream()
                .map(parcel -> new String(ParcelLines.line(parcel), UTF_8))
                .toList();
    }

    private RosterPlace place(Base base) {
        return base == Base.POSTGRES ? POSTGRES.young() : YoungRoster.at(folder.resolve("roster-" + made++ + ".db"));
    }

    private Typed type(RosterPlace place, String... words) {
        Map<String, String> environment = place.file() == null
                ? Map.of(
                        "TRACKSOAK_ROSTER_USER", String.valueOf(place.user()),
                        "TRACKSOAK_ROSTER_PASSWORD", String.valueOf(place.password()),
                        "TRACKSOAK_ROSTER", String.valueOf(place))
                : Map.of("TRACKSOAK_ROSTER", String.valueOf(place.file()));
        return Typed.run(rooms, environment, words);
    }

    private JsonNode printed(RosterPlace place, String... words) throws IOException {
        Typed typed = type(place, words);
        assertThat(typed.code()).as(typed.err()).isZero();
        return JSON.readTree(typed.out().replaceFirst("\"at\" ?: ?\"[^\"]*\",?", ""));
    }

    private Said said(RosterPlace place) throws IOException {
        try (Roster roster = Roster.open(place, RosterAccess.clock())) {
            return new Said(
                    printed(place, "roster", "list", "--json"),
                    printed(place, "roster", "list", "--json", "--session", "barn-32"),
                    printed(place, "roster", "list", "--json", "--tonight", "barn-32"),
                    printed(place, "roster", "keys", "--json"),
                    roster.sessions().stream().map(Session::name).toList());
        }
    }

    /** Lets lines in; how many were refused. */
    private int in(RosterPlace place, Way way, List<String> lines) throws IOException, InterruptedException {
        switch (way) {
            case FILE -> {
                Path file = folder.resolve("stick-" + made++);
                Files.writeString(file, exchange(lines));
                Typed typed = type(place, "roster", "import", file.toString(), "--new-keys", "--json");
                JsonNode refused = JSON.readTree(typed.out()).get("refused");
                assertThat(typed.code()).as(typed.err()).isEqualTo(refused.isEmpty() ? 0 : 2);
                return refused.size();
            }
            case HTTP -> {
                try (Roster roster = Roster.open(place, RosterAccess.clock());
                        SyncPoint server = new SyncPoint(
                                roster, Files.createDirectory(folder.resolve("at-" + made++)), RosterAccess.clock())) {
                    HttpResponse<String> answer = HttpClient.newHttpClient()
                            .send(
                                    HttpRequest.newBuilder(
                                                    URI.create(server.address()).resolve("/sync/1/take"))
                                            .header("Authorization", "Bearer " + server.token())
                                            .POST(HttpRequest.BodyPublishers.ofString(String.join("", lines)))
                                            .build(),
                                    HttpResponse.BodyHandlers.ofString());
                    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
                    return JSON.readTree(answer.body()).get("refused").size();
                }
            }
            default -> {
                try (Roster roster = Roster.open(place, RosterAccess.clock())) {
                    int refused = 0;
                    for (String line : lines) {
                        try {
                            Parcel parcel = ParcelLines.read(line.strip().getBytes(UTF_8));
                            refused += roster.take(List.of(parcel)).refused().size();
                        } catch (Problem none) {
                            refused++;
                        }
                    }
                    return refused;
                }
            }
        }
    }

    private String exchange(List<String> lines) throws IOException {
        ByteArrayOutputStream empty = new ByteArrayOutputStream();
        try (Roster none = Roster.open(place(Base.SQLITE), RosterAccess.clock())) {
            ExchangeFile.write(none.peer(), empty);
        }
        String body = String.join("", lines);
        return empty.toString(UTF_8).lines().findFirst().orElseThrow() + "\n" + body + "{\"events\":" + lines.size()
                + ",\"sha256\":\"" + Digests.sha256Hex(body.getBytes(UTF_8)) + "\"}\n";
    }

    private Said taken(Base base, Way way, List<Parcel> parcels) throws IOException, InterruptedException {
        RosterPlace one = place(base);
        assertThat(in(one, way, lines(parcels))).isZero();
        Said said = said(one);
        List<String> turned = new ArrayList<>(lines(parcels));
        Collections.reverse(turned);
        RosterPlace other = place(base);
        assertThat(in(other, way, turned)).isZero();
        assertThat(said(other)).isEqualTo(said);
        return said;
    }

    @ParameterizedTest
    @MethodSource("ways")
    void aWithdrawnRecordStaysSoUnderItsTag(Base base, Way way) throws Exception {
        SignedRecord record = Shows.pass("00000000", first).signed(ada);
        Parcel loose = entered(record, null, ada);
        List<Parcel> parcels = new ArrayList<>(List.of(
                known(ada),
                known(bea),
                loose,
                act(EventDraft.withdraw(drive(loose), "loose plug"), ada, 20),
                entered(record, "S-020", bea),
                act(EventDraft.tag(drive(loose), null, "S-020", "label put on"), bea, 21)));
        Said said = taken(base, way, parcels);
        assertThat(said.standings()).isEqualTo(Map.of("S-020", "withdrawn"));
        assertThat(said.offered()).isEmpty();
        assertThat(said.list().get("conflicts")).isEmpty();
        parcels.add(entered(record, "S-021", ada));
        Said two = taken(base, way, parcels);
        assertThat(two.list().get("conflicts")).hasSize(1);
        assertThat(two.list().at("/conflicts/0/tags").toString()).isEqualTo("[\"S-020\",\"S-021\"]");
        assertThat(two.offered()).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("ways")
    void aWithdrawalUnderATagTakenBackFollowsTheRecord(Base base, Way way) throws Exception {
        SignedRecord record = Shows.pass("00000000", first).signed(ada);
        Parcel loose = entered(record, null, ada);
        Parcel tagged = entered(record, "S-020", ada);
        Parcel label = act(EventDraft.tag(drive(loose), null, "S-020", "label put on"), ada, 21);
        Said said = taken(
                base,
                way,
                List.of(
                        known(ada),
                        known(bea),
                        loose,
                        tagged,
                        label,
                        act(EventDraft.withdraw(drive(tagged), "loose plug"), ada, 25),
                        entered(record, "S-021", bea),
                        act(
                                EventDraft.settle(
                                        drive(loose),
                                        null,
                                        List.of(
                                                tagged.event().ref(),
                                                label.event().ref()),
                                        "its label"),
                                bea,
                                30)));
        assertThat(said.list().get("conflicts")).isEmpty();
        assertThat(said.standings()).containsEntry("S-021", "withdrawn").doesNotContainValue("cleared");
        assertThat(said.offered()).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("ways")
    void validityAndNamesOfSessionsTurnNothing(Base base, Way way) throws Exception {
        Said said = taken(
                base,
                way,
                List.of(
                        known(ada),
                        entered(show("B4RN-0001", "barn-32", 3_650).signed(ada), "S-001", ada),
                        entered(show("B4RN-0002", "barn-32", 10).signed(ada), "S-002", ada),
                        entered(show("B4RN-0003", "fair-32", 3_650).signed(ada), "S-003", ada),
                        entered(show("B4RN-0004", "barn-32", 3_649).signed(eve), "S-004", eve)));
        assertThat(said.offered()).containsExactly("S-001", "S-002", "S-003");
        assertThat(said.drive("S-002").get("standing").asText()).isEqualTo("due");
        assertThat(said.drive("S-001").get("standing").asText()).isEqualTo("cleared");
        assertThat(said.sessions()).containsExactly("barn-32", "barn-32", "fair-32");
    }

    private Shows show(String serial, String name, int validDays) {
        return Shows.pass(serial, first)
                .session(BARN.but().name(name).validDays(validDays).build());
    }

    @ParameterizedTest
    @MethodSource("ways")
    void aStrangersRunAsksNoQuestion(Base base, Way way) throws Exception {
        Parcel fail = entered(Shows.fail("B4RN-0001", first).signed(ada), "S-014", ada);
        Said said = taken(
                base,
                way,
                List.of(
                        known(ada),
                        fail,
                        act(EventDraft.note(drive(fail), "handle broken"), ada, 30),
                        entered(
                                Shows.pass("B4RN-0001", first.plusSeconds(900))
                                        .session(RunSketch.session("eves-1", 1))
                                        .signed(eve),
                                null,
                                eve),
                        act(EventDraft.note(drive(fail), "fine, take it"), eve, 40)));
        assertThat(said.drive("S-014").get("session").asText()).isEqualTo("barn-32");
        assertThat(said.drive("S-014").get("standing").asText()).isEqualTo("failed");
        assertThat(said.drive("S-014").get("lastNote").asText()).isEqualTo("handle broken");
        assertThat(said.sessions()).containsExactly("barn-32");
        assertThat(said.offered()).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("ways")
    void otherWaysOfWritingAndWorthlessKeysAreNoEvents(Base base, Way way) throws Exception {
        Parcel withdrawn = act(EventDraft.withdraw("d-00000000000000000000", "loan"), ada, 1);
        String line = lines(List.of(withdrawn)).get(0);
        String signature = withdrawn.event().signature();
        String key = withdrawn.event().key();
        List<String> others = new ArrayList<>(List.of(
                line.replace(signature, signature + "=="),
                line.replace(signature, spare(signature, 4)),
                line.replace(key, key + "="),
                line.replace(key, spare(key, 2))));
        // the point (0, 1) and the one of order 2, RFC 8032 section 5.1.4: anybody can sign for them
        for (String small :
                List.of("AQAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA", "7P_______________________________________38")) {
            others.add(line.replace(key, small));
            others.add(lines(List.of(known(bea))).get(0).replace(bea.verifyKey().text(), small));
        }
        RosterPlace place = place(base);
        List<String> all = new ArrayList<>(lines(List.of(known(ada), withdrawn)));
        all.addAll(others);
        assertThat(in(place, way, all)).isEqualTo(others.size());
        try (Roster roster = Roster.open(place, RosterAccess.clock())) {
            assertThat(roster.events()).isEqualTo(2);
        }
    }

    /** Other spare bits in the last letter, which decode to the same bytes. */
    private static String spare(String text, int bits) {
        String alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
        int last = alphabet.indexOf(text.charAt(text.length() - 1));
        return text.substring(0, text.length() - 1) + alphabet.charAt(last ^ (bits - 1));
    }

    @ParameterizedTest
    @MethodSource("ways")
    void keysThatRevokeEachOtherAndNamesOfAnotherKind(Base base, Way way) throws Exception {
        TesterKey cleo = TesterKey.create("Cleo");
        Parcel pass = entered(Shows.pass("B4RN-0001", first).signed(cleo), "S-014", cleo);
        Parcel withdrawn = act(EventDraft.withdraw(drive(pass), "loan"), cleo, 30);
        Said said = taken(
                base,
                way,
                List.of(
                        known(ada),
                        known(bea),
                        known(cleo),
                        known(eve),
                        pass,
                        withdrawn,
                        act(EventDraft.revokeKey(bea.verifyKey(), "Bea", "stolen"), ada, 50),
                        act(EventDraft.revokeKey(ada.verifyKey(), "Ada", "no, hers was"), bea, 51),
                        act(EventDraft.revokeKey(eve.verifyKey(), "Eve", "by a revoked key"), bea, 52),
                        act(
                                EventDraft.revokeKey(cleo.verifyKey(), "Cleo", "by a stranger"),
                                TesterKey.create("Mo"),
                                53),
                        act(
                                EventDraft.settle(
                                        drive(pass),
                                        null,
                                        List.of(withdrawn.event().ref()),
                                        "sneaky"),
                                cleo,
                                54),
                        act(EventDraft.restore(drive(pass), List.of(pass.event().ref()), "sneaky"), cleo, 55)));
        assertThat(Stream.of(ada, bea, eve)).allMatch(said::revoked);
        assertThat(said.revoked(cleo)).isFalse();
        assertThat(said.standings()).isEqualTo(Map.of("S-014", "withdrawn"));
        assertThat(said.offered()).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("ways")
    void aRecordThatItsSignerEditedGivesNoTrust(Base base, Way way) throws Exception {
        List<Parcel> parcels = new ArrayList<>(List.of(known(ada)));
        PlanFacts brief = Shows.lineCheck("", first).sketch.plan;
        int number = 1;
        for (PlanFacts plan : List.of(
                PlanFacts.of(
                        PlanName.FULL_SHOW,
                        false,
                        brief.takeBeforeS(),
                        brief.fillCapS(),
                        brief.takeAfterS(),
                        brief.bytesPlanned()),
                PlanFacts.of(PlanName.SOUND_CHECK, false, 300, 3600, 600, brief.bytesPlanned()),
                new PlanFacts("full-show", false, 0, 86_400, 10_800, 60, 1L << 40, null, true, 0, 0, 0, 0, ""))) {
            Shows renamed = Shows.lineCheck("B4RN-000" + number, first);
            renamed.sketch.plan = plan;
            parcels.add(entered(renamed.signed(ada), "S-00" + number++, ada));
        }
        Shows simulated = Shows.pass("B4RN-0009", first);
        simulated.sketch.ioMode = IoMode.SIMULATED;
        parcels.add(entered(simulated.signed(ada), "S-009", ada));
        Said said = taken(base, way, parcels);
        assertThat(said.standings())
                .isEqualTo(Map.of("S-001", "unproven", "S-002", "unproven", "S-003", "unproven", "S-009", "unproven"));
        assertThat(said.offered()).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("ways")
    void aTextWithANulKeepsNothingBack(Base base, Way way) throws Exception {
        Parcel pass = entered(Shows.pass("B4RN-\u0000-0001", first).signed(ada), "S-014", ada);
        Said said = taken(
                base,
                way,
                List.of(
                        known(ada),
                        pass,
                        act(EventDraft.withdraw(drive(pass), "\u0000"), ada, 30),
                        entered(Shows.pass("B4RN-0002", first).signed(ada), "S-015", ada)));
        assertThat(said.standings()).isEqualTo(Map.of("S-014", "withdrawn", "S-015", "cleared"));
        assertThat(said.offered()).containsExactly("S-015");
    }
}
