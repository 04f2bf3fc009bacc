package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.Socket;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.CanonicalJson;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.ParcelLines;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.web.server.Limits;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.TokenFile;

/** What somebody who means harm would try. Each row of "Attacks tried" in docs/roster.md names its test here. */
class AttacksTest {

    private static final String MARKUP = "</td></script><img src=x onerror=alert(1)>\"'&\u202E\u0000\n=1+1";

    private static final ObjectMapper JSON = new ObjectMapper();

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

    private String enter(Shows show, String tag) {
        RosterEvent event = served.desk.enter(show.signed(served.key), tag);
        return String.valueOf(event.drive());
    }

    private static byte[] lines(List<Parcel> parcels) {
        ByteArrayOutputStream body = new ByteArrayOutputStream();
        parcels.forEach(parcel -> body.writeBytes(ParcelLines.line(parcel)));
        return body.toByteArray();
    }

    /** The same event about another record, signed by its author. */
    private static Parcel withRecord(Parcel like, TesterKey author, String record) {
        byte[] canonical = record.getBytes(StandardCharsets.UTF_8);
        try {
            ObjectNode event = (ObjectNode) JSON.readTree(EventJson.bytes(like.event()));
            event.remove("signature");
            ((ObjectNode) event.get("record")).put("sha256", Digests.sha256Hex(canonical));
            event.put("signature", VerifyKey.encode(author.sign(CanonicalJson.of(JSON.writeValueAsBytes(event)))));
            return new Parcel(EventJson.read(JSON.writeValueAsBytes(event)), Digests.gzip(canonical));
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private HttpResponse<String> take(byte[] body, String... more) {
        List<String> headers = new ArrayList<>(List.of("Authorization", served.bearer()));
        headers.addAll(List.of(more));
        return served.post("/sync/1/take", body, headers.toArray(String[]::new));
    }

    @Test
    void markupInEveryFieldStaysText() {
        Shows show = Shows.pass("B4RN" + MARKUP, Shows.START);
        show.sketch.stateReason = MARKUP;
        TesterKey evil = TesterKey.create("Wren <b>");
        List<Parcel> parcels = served.elsewhere(evil, desk -> {
            String drive = String.valueOf(desk.enter(show.signed(evil), "S-014").drive());
            desk.note(drive, MARKUP);
            desk.withdraw(drive, MARKUP);
        });
        assertThat(take(lines(parcels)).statusCode()).isEqualTo(200);
        String drive = served.roster
                .board(tracksoak.report.roster.BoardQuery.all(null))
                .rows()
                .get(0)
                .drive()
                .id();
        String record = served.get("/drives/" + drive).body();
        String href = record.substring(record.indexOf("/records/"), record.indexOf("/records/") + 73);
        for (String page : List.of("/", "/drives/" + drive, "/labels", "/?q=%3Cimg%20src%3Dx%3E", href)) {
            HttpResponse<String> answer = served.get(page, "Accept", "text/html");
            assertThat(answer.statusCode()).as(page).isEqualTo(200);
            assertThat(answer.body())
                    .as(page)
                    .doesNotContain("<img src=x", "\u202E", "\u0000")
                    .doesNotContain("onerror=alert(1)>\"");
            assertThat(answer.headers().firstValue("Content-Security-Policy").orElse(""))
                    .as(page)
                    .contains("default-src 'none'")
                    .doesNotContain("script-src 'unsafe-inline'")
                    .doesNotContain("unsafe-eval");
        }
    }

    @Test
    void ourPagesHoldNothingInlineThatRuns() {
        enter(Shows.pass("B4RN-0001", Shows.START), "S-014");
        for (String page : List.of("/", "/tonight", "/drives/S-014", "/labels", "/enter")) {
            String html = served.get(page).body();
            assertThat(html).doesNotContain("javascript:").doesNotContainPattern("<script(?![^>]* src=)");
            assertThat(html).doesNotContainPattern("<[^>]+ on[a-z]+=").doesNotContain(" style=");
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/assets/../../../etc/passwd",
                "/assets/..%2f..%2fetc%2fpasswd",
                "/assets/%2e%2e/%2e%2e/etc/passwd",
                "/records/..%2froster.db",
                "/drives/..;/x",
                "/drives/%00",
                "/roster.db",
                "/crew-tokens.json",
                "//evil.example/",
                "/assets/.roster.css",
            })
    void aPathLeadsNowhereElse(String path) throws IOException {
        String answer = served.raw("GET " + path + " HTTP/1.1\r\nHost: localhost:" + served.server.port()
                + "\r\nConnection: close\r\n\r\n");
        assertThat(answer).matches("(?s)HTTP/1.1 4[0-9][0-9].*").doesNotContain("root:", "hash");
    }

    @Test
    void whatIsTypedIntoTheSearchIsNoSql() {
        enter(Shows.pass("B4RN-0001", Shows.START), "S-014");
        for (String text : List.of("' OR 1=1 --", "'; DROP TABLE event; --", "%25", "_")) {
            String query = java.net.URLEncoder.encode(text, StandardCharsets.UTF_8);
            assertThat(served.get("/?q=" + query).body()).contains("No drive fits");
        }
        assertThat(served.get("/").body()).contains("S-014");
        assertThat(served.get("/drives/S-014'--").statusCode()).isEqualTo(404);
    }

    @Test
    void anOversizeBodyIsRefusedUnread() throws IOException {
        String head = "POST /sync/1/take HTTP/1.1\r\nHost: localhost\r\nAuthorization: " + served.bearer()
                + "\r\nConnection: close\r\nContent-Length: 99999999999\r\n\r\n";
        assertThat(served.raw(head)).startsWith("HTTP/1.1 413");
        assertThat(take(new byte[(20 << 20) + 1]).statusCode()).isEqualTo(413);
        assertThat(served.post("/enter", new byte[4_000], "Origin", origin()).statusCode())
                .isEqualTo(413);
    }

    @Test
    void aFewBytesDoNotBecomeAFlood() throws IOException {
        ByteArrayOutputStream bomb = new ByteArrayOutputStream();
        try (GZIPOutputStream gzip = new GZIPOutputStream(bomb)) {
            byte[] zeros = new byte[1 << 20];
            for (int i = 0; i < 64; i++) {
                gzip.write(zeros);
            }
        }
        assertThat(bomb.size()).isLessThan(1 << 17);
        assertThat(take(bomb.toByteArray(), "Content-Encoding", "gzip").statusCode())
                .isEqualTo(413);
    }

    @Test
    void deepNestingIsNoCrash() {
        byte[] deep = ("[".repeat(200_000) + "\n").getBytes(StandardCharsets.UTF_8);
        assertThat(take(deep).body()).contains("\"taken\":0", "event 1 of the body", "cannot be read");
        byte[] objects = ("{\"a\":".repeat(50_000) + "\n").getBytes(StandardCharsets.UTF_8);
        assertThat(take(objects).body()).contains("\"taken\":0", "event 1 of the body", "cannot be read");
    }

    @Test
    void aRecordOfFourMillionTextsIsRefusedByItself() {
        TesterKey finch = TesterKey.create("Finch");
        List<Parcel> parcels = served.elsewhere(
                finch, desk -> desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(finch), "S-014"));
        Parcel entered = parcels.stream()
                .filter(parcel -> parcel.gzip() != null)
                .findFirst()
                .orElseThrow();
        String record = new String(gunzip(entered), StandardCharsets.UTF_8);
        String bomb = record.replace("\"checkByHand\":[]", "\"checkByHand\":[" + "\"\",".repeat(4_000_000) + "\"\"]");
        Parcel small = withRecord(entered, finch, bomb);
        assertThat(Objects.requireNonNull(small.gzip())).hasSizeLessThan(64 << 10);
        HttpResponse<String> answer = take(lines(List.of(small, entered)));
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body()).contains("\"taken\":1", "\"refused\":[{\"event\":", "more than");
        assertThat(served.get("/").body()).contains("B4RN-0001");
    }

    private static byte[] gunzip(Parcel parcel) {
        try {
            return Digests.gunzip(Objects.requireNonNull(parcel.gzip()), 16 << 20);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "+1000000000-12-31T23:59:59.999999999Z",
                "-1000000000-01-01T00:00:00Z",
                "+292278994-08-17T07:12:55Z"
            })
    void anExtremeDateIsRefusedByItself(String date) {
        TesterKey finch = TesterKey.create("Finch");
        List<Parcel> parcels = served.elsewhere(
                finch, desk -> desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(finch), "S-014"));
        Parcel entered = parcels.stream()
                .filter(parcel -> parcel.gzip() != null)
                .findFirst()
                .orElseThrow();
        String record = new String(gunzip(entered), StandardCharsets.UTF_8);
        for (String part : List.of("startedAt", "endedAt")) {
            String extreme = record.replaceAll("\"" + part + "\":\"[^\"]*\"", "\"" + part + "\":\"" + date + "\"");
            assertThat(extreme).contains(date);
            HttpResponse<String> answer = take(lines(List.of(withRecord(entered, finch, extreme), entered)));
            assertThat(answer.statusCode()).as(part).isEqualTo(200);
            assertThat(answer.body()).contains("\"refused\":[{\"event\":");
        }
        assertThat(served.get("/").body()).contains("B4RN-0001");
    }

    @Test
    void aRecordWithoutAVerdictIsSaidToHaveNoReport() {
        RunRecord judged = Shows.pass("B4RN-0001", Shows.START).record();
        RunRecord open = judged.withPhases(judged.phases());
        RosterEvent event = served.desk.enter(SignedRecord.sign(open, served.key), "S-014");
        String path = "/records/" + Objects.requireNonNull(event.record()).sha256();
        HttpResponse<String> page = served.get(path, "Accept", "text/html");
        assertThat(page.statusCode()).isEqualTo(422);
        assertThat(page.body()).contains("It holds no verdict");
        assertThat(served.get(path + ".json").statusCode()).isEqualTo(200);
        assertThat(served.get("/drives/S-014").statusCode()).isEqualTo(200);
    }

    @Test
    void moreEventsAtOnceThanAgreedAreRefused() {
        List<Parcel> one = served.elsewhere(
                TesterKey.create("Finch"),
                desk -> desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(served.key), null));
        List<Parcel> many = new ArrayList<>();
        for (int i = 0; i < 201; i++) {
            many.add(one.get(0));
        }
        assertThat(take(lines(many)).statusCode()).isEqualTo(400);
        assertThat(served.get("/sync/1/names?limit=5001", "Authorization", served.bearer())
                        .statusCode())
                .isEqualTo(400);
    }

    @Test
    void aRecordTwiceCountsOnce() {
        TesterKey finch = TesterKey.create("Finch");
        List<Parcel> parcels = served.elsewhere(
                finch, desk -> desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(finch), "S-014"));
        for (int i = 0; i < 3; i++) {
            assertThat(take(lines(parcels)).statusCode()).isEqualTo(200);
        }
        assertThat(take(lines(parcels)).body()).contains("\"taken\":0", "\"known\":" + parcels.size());
        assertThat(served.roster.drive("S-014", null).drive().records()).isEqualTo(1);
    }

    @Test
    void anOldPassSentAgainDoesNotBringTrustBack() {
        String drive = enter(Shows.pass("B4RN-0001", Shows.START), "S-014");
        SignedRecord old = served.roster.signedRecord(
                Objects.requireNonNull(served.roster.history(drive).get(0).digest())
                        .sha256());
        enter(Shows.fail("B4RN-0001", Shows.START.plusSeconds(4000)), "S-014");
        TesterKey finch = TesterKey.create("Finch");
        served.now = Shows.START.plus(Duration.ofDays(2));
        assertThat(take(lines(served.elsewhere(finch, desk -> desk.enter(old, "S-014"))))
                        .statusCode())
                .isEqualTo(200);
        assertThat(served.roster.drive(drive, null).standing().standing()).isEqualTo(Standing.FAILED);
    }

    @Test
    void aRecordOfTheFutureGivesNoTrust() {
        enter(Shows.pass("B4RN-0001", served.now.plus(Duration.ofDays(300))), "S-014");
        assertThat(served.get("/drives/S-014").body()).contains("dated in the future");
        assertThat(served.get("/").body()).contains(" (in the future)");
        assertThat(served.get("/labels").body()).contains("tested by a wrong clock");
        assertThat(served.roster.drive("S-014", null).standing().standing()).isNotIn(BoardQuery.TONIGHT);
    }

    @Test
    void aChangedEventIsNotTaken() {
        TesterKey finch = TesterKey.create("Finch");
        List<Parcel> parcels = served.elsewhere(finch, desk -> {
            String drive = String.valueOf(
                    desk.enter(Shows.fail("B4RN-0001", Shows.START).signed(finch), "S-014")
                            .drive());
            desk.withdraw(drive, "rattles");
        });
        byte[] changed = new String(lines(parcels), StandardCharsets.UTF_8)
                .replace("rattles", "healthy")
                .getBytes(StandardCharsets.UTF_8);
        HttpResponse<String> answer = take(changed);
        assertThat(answer.statusCode()).isEqualTo(200);
        assertThat(answer.body()).contains("\"refused\":[{\"event\":");
        assertThat(served.get("/drives/S-014").body()).doesNotContain("healthy");
    }

    @Test
    void aRecordOfAnUnknownOrRevokedKeyGivesNoTrust() {
        TesterKey stranger = TesterKey.create("Stranger");
        served.desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(stranger), "S-014");
        assertThat(served.get("/drives/S-014").body()).contains("of an unknown key");
        assertThat(served.roster.drive("S-014", null).standing().why())
                .isEqualTo("Its record does not count: not signed by a tester this roster knows, or changed since.");
        assertThat(served.roster.drive("S-014", null).standing().standing()).isEqualTo(Standing.UNPROVEN);
        TesterKey finch = TesterKey.create("Finch");
        take(lines(served.elsewhere(
                finch, desk -> desk.enter(Shows.pass("B4RN-0002", Shows.START).signed(finch), "S-015"))));
        assertThat(served.roster.drive("S-015", null).standing().standing()).isEqualTo(Standing.CLEARED);
        served.desk.revokeKey(finch.id(), "laptop lost");
        assertThat(served.roster.drive("S-015", null).standing().standing()).isEqualTo(Standing.UNPROVEN);
        assertThat(served.get("/drives/S-015").body()).contains("of a revoked key");
    }

    @Test
    void writingNeedsAToken() {
        byte[] nothing = new byte[0];
        assertThat(served.post("/sync/1/take", nothing).statusCode()).isEqualTo(401);
        assertThat(served.post("/sync/1/take", nothing, "Authorization", "Basic eDp5")
                        .statusCode())
                .isEqualTo(401);
        String wrong = "Bearer crew-" + served.token.kept().id() + "-" + "A".repeat(43);
        assertThat(served.post("/sync/1/take", nothing, "Authorization", wrong).statusCode())
                .isEqualTo(401);
        assertThat(take(nothing).statusCode()).isEqualTo(200);
        served.tokens.keep(served.token.kept().revoked(served.now.toString()));
        HttpResponse<String> revoked = take(nothing);
        assertThat(revoked.statusCode()).isEqualTo(401);
        assertThat(revoked.body()).contains("revoked").doesNotContain(served.token.text());
    }

    @Test
    void tokensCannotBeGuessedByTrying() {
        String wrong = "Bearer crew-" + served.token.kept().id() + "-" + "A".repeat(43);
        for (int i = 0; i < 10; i++) {
            assertThat(served.get("/sync/1/names", "Authorization", wrong).statusCode())
                    .isEqualTo(401);
        }
        HttpResponse<String> held = served.get("/sync/1/names", "Authorization", wrong);
        assertThat(held.statusCode()).isEqualTo(429);
        assertThat(held.headers().firstValue("Retry-After")).isPresent();
        served.now = served.now.plusSeconds(7);
        assertThat(served.get("/sync/1/names", "Authorization", served.bearer()).statusCode())
                .isEqualTo(200);
    }

    @Test
    void theTokenIsNowhereButWithItsHolder() throws IOException {
        String secret = served.token.text().substring(18);
        take(new byte[0]);
        assertThat(java.nio.file.Files.readString(folder.resolve(TokenFile.NAME)))
                .contains(served.token.kept().id())
                .doesNotContain(secret);
        assertThatThrownBy(() -> new RemoteRoster(served.base(), "crew-000000000000-" + secret, null).refs("", 10))
                .message()
                .doesNotContain(secret);
        served.server.close();
        assertThat(String.join("\n", served.requests)).contains("/sync/1/take").doesNotContain(secret);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"evil.example", "evil.example:80", "127.0.0.2", "[::2]", "localhost.evil.example", "a b", ""})
    void anotherNameInHostIsRefused(String host) throws IOException {
        assertThat(served.raw("GET / HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n"))
                .matches("(?s)HTTP/1.1 4(21|00).*");
    }

    @Test
    void aPageOfAnotherSiteCannotAct() {
        byte[] form = ("token=" + served.token.text()).getBytes(StandardCharsets.UTF_8);
        String type = "application/x-www-form-urlencoded";
        assertThat(served.post("/enter", form, "Content-Type", type, "Origin", "http://evil.example")
                        .statusCode())
                .isEqualTo(403);
        assertThat(served.post("/enter", form, "Content-Type", type).statusCode())
                .isEqualTo(403);
        assertThat(take(new byte[0], "Origin", "http://evil.example").statusCode())
                .isEqualTo(403);
        HttpResponse<String> own = served.post("/enter", form, "Content-Type", type, "Origin", origin());
        assertThat(own.statusCode()).isEqualTo(303);
        assertThat(own.headers().firstValue("Set-Cookie").orElse(""))
                .contains("HttpOnly", "SameSite=Strict")
                .doesNotContain(served.token.text());
    }

    private String origin() {
        String base = served.base().toString();
        return base.substring(0, base.length() - 1);
    }

    @Test
    void aMethodCannotBeDisguised() {
        assertThat(served.post("/", new byte[0], "X-HTTP-Method-Override", "GET")
                        .statusCode())
                .isEqualTo(405);
        assertThat(served.get("/sync/1/take", "Authorization", served.bearer(), "X-HTTP-Method-Override", "POST")
                        .statusCode())
                .isEqualTo(405);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "GET / HTTP/1.1|Host: localhost|X: a| b: c|Connection: close||",
                "GET / HTTP/1.1|Host: localhost|Host: evil.example|Connection: close||",
                "POST /sync/1/take HTTP/1.1|Host: localhost|Content-Length: 5|Transfer-Encoding: chunked|Connection: close||0||GET /x HTTP/1.1||",
                "NONSENSE||",
            })
    void aMalformedHeadSmugglesNothing(String request) throws IOException {
        String answer = served.raw(request.replace("|", "\r\n"));
        assertThat(Served.header(answer, "Set-Cookie")).isNull();
        assertThat(answer.split("HTTP/1\\.1 ", -1)).hasSizeLessThanOrEqualTo(2);
        assertThat(answer).matches("(?s)(HTTP/1.1 4.*)?");
    }

    @Test
    void aLineEndInAnAddressBecomesNoHeader() throws IOException {
        String answer =
                served.raw("GET /?q=a%0d%0aSet-Cookie:%20x=1 HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n");
        assertThat(answer).startsWith("HTTP/1.1 200");
        assertThat(Served.header(answer, "Set-Cookie")).isNull();
    }

    @Test
    void aHeadTooLargeIsRefused() throws IOException {
        String answer = served.raw(
                "GET / HTTP/1.1\r\nHost: localhost\r\nX: " + "a".repeat(20_000) + "\r\nConnection: close\r\n\r\n");
        assertThat(answer).startsWith("HTTP/1.1 431");
    }

    @Test
    void readingCanBeClosed() {
        served.close();
        served = new Served(folder.resolve("closed"), settings -> settings.withOpenReading(false));
        assertThat(served.get("/").statusCode()).isEqualTo(401);
        assertThat(served.get("/", "Accept", "text/html").statusCode()).isEqualTo(303);
        assertThat(served.get("/drives.csv").statusCode()).isEqualTo(401);
        assertThat(served.get("/live").statusCode()).isEqualTo(401);
        assertThat(served.get("/", "Authorization", served.bearer()).statusCode())
                .isEqualTo(200);
        HttpResponse<String> enter = served.post(
                "/enter",
                ("token=" + served.token.text()).getBytes(StandardCharsets.UTF_8),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                origin());
        String cookie = enter.headers().firstValue("Set-Cookie").orElseThrow().split(";", 2)[0];
        assertThat(served.get("/", "Cookie", cookie).statusCode()).isEqualTo(200);
        served.tokens.keep(served.token.kept().revoked(served.now.toString()));
        assertThat(served.get("/", "Cookie", cookie).statusCode()).isEqualTo(401);
    }

    @Test
    void aSlowBodyIsCutOff() throws IOException {
        served.close();
        served = new Served(
                folder.resolve("slow"),
                settings -> settings.withLimits(new Limits(50, 8_192, 1 << 20, 2, 2, 2, 30, 1_000, 1_000, 10, 6, 10)));
        Instant before = Instant.ofEpochMilli(java.time.Clock.systemUTC().millis());
        try (Socket head = served.socket();
                Socket body = served.socket()) {
            head.getOutputStream().write("GET / HT".getBytes(StandardCharsets.US_ASCII));
            body.getOutputStream()
                    .write(("POST /sync/1/take HTTP/1.1\r\nHost: localhost\r\nAuthorization: " + served.bearer()
                                    + "\r\nContent-Length: 1000\r\n\r\nx")
                            .getBytes(StandardCharsets.US_ASCII));
            body.getOutputStream().flush();
            head.getOutputStream().flush();
            Served.rest(head);
            Served.rest(body);
        }
        assertThat(Duration.between(
                        before, Instant.ofEpochMilli(java.time.Clock.systemUTC().millis())))
                .isLessThan(Duration.ofSeconds(25));
        assertThat(served.get("/").statusCode()).isEqualTo(200);
    }

    @Test
    void twoHundredClientsAtOnceAreAllAnswered() throws Exception {
        enter(Shows.pass("B4RN-0001", Shows.START), "S-014");
        ExecutorService crowd = Executors.newFixedThreadPool(200);
        try {
            List<Callable<Integer>> asks = new ArrayList<>();
            for (int i = 0; i < 200; i++) {
                String path = i % 2 == 0 ? "/?q=" + i : "/drives/S-014";
                asks.add(() -> served.get(path).statusCode());
            }
            for (Future<Integer> answer : crowd.invokeAll(asks)) {
                assertThat(answer.get()).isEqualTo(200);
            }
        } finally {
            crowd.shutdownNow();
        }
    }

    @Test
    void oneClientCannotKeepTheOthersOut() {
        served.close();
        served = new Served(
                folder.resolve("limited"),
                settings -> settings.withLimits(new Limits(50, 8_192, 1 << 20, 2, 15, 60, 120, 1, 20, 10, 6, 10)));
        for (int i = 0; i < 20; i++) {
            assertThat(served.get("/enter").statusCode()).isEqualTo(200);
        }
        assertThat(served.get("/enter").statusCode()).isEqualTo(429);
        served.now = served.now.plusSeconds(2);
        assertThat(served.get("/enter").statusCode()).isEqualTo(200);
    }

    @Test
    void anotherAddressThanLoopbackNeedsACertificate() {
        assertThatThrownBy(() ->
                        new RosterSettings("0.0.0.0", 0, null, null, false, true, List.of(), null, Limits.usual()))
                .isInstanceOf(Problem.class)
                .hasMessageContaining("unencrypted");
    }
}
