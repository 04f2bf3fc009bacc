package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.Socket;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.web.server.CrewToken;

/** A roster that is closed to readers without a token. Each row of "Attacks tried" in docs/roster.md names its test here. */
class ClosedRosterTest {

    @TempDir
    Path folder;

    private Served served;
    private PlainClient client;
    private String record = "";

    @BeforeEach
    void start() {
        served = new Served(folder, settings -> settings.withOpenReading(false));
        client = new PlainClient("127.0.0.5", served.server.port());
        RosterEvent event =
                served.desk.enter(Shows.pass("B4RN-0001", Shows.START).signed(served.key), "S-014");
        record = "/records/" + java.util.Objects.requireNonNull(event.record()).sha256();
    }

    @AfterEach
    void stop() {
        served.close();
        assertThat(served.failures).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/",
                "/tonight",
                "/drives.csv",
                "/labels",
                "/drives/S-014",
                "RECORD",
                "RECORD.json",
                "/live",
                "/live?x=1",
            })
    void nothingOfAClosedRosterIsReadWithoutAToken(String path) throws IOException {
        String asked = path.replace("RECORD", record);
        for (String accept : new String[] {"text/html", "*/*", "text/event-stream", "text/html,text/event-stream"}) {
            for (String wrong : new String[] {"", "Authorization: Bearer x", "Cookie: roster-visit=x"}) {
                PlainClient.Reply reply = client.ask(asked, "Accept: " + accept, wrong);
                assertThat(reply.status())
                        .as(asked + " for " + accept + " " + wrong)
                        .isIn(401, 303, 429);
                assertThat(reply.text()).doesNotContain("event: changed", "S-014", "B4RN");
            }
        }
        String good = "Authorization: " + served.bearer();
        try (Socket socket = client.connect()) {
            PlainClient.send(socket, "GET " + asked, good, "Accept: text/html");
            assertThat(PlainClient.status(socket)).isEqualTo(200);
        }
    }

    @Test
    @Timeout(60)
    void anOpenStreamEndsWhenItsTokenIsRevoked() throws IOException {
        HttpResponse<String> enter = served.post(
                "/enter",
                ("token=" + served.token.text()).getBytes(StandardCharsets.UTF_8),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.base().toString().replaceAll("/$", ""));
        String cookie = enter.headers().firstValue("Set-Cookie").orElseThrow().split(";", 2)[0];
        CrewToken.Fresh other = CrewToken.make("other", served.now.toString(), "", new SecureRandom());
        served.tokens.keep(other.kept());
        try (Socket byHeader = client.connect();
                Socket byCookie = client.connect();
                Socket stays = client.connect()) {
            PlainClient.send(byHeader, "GET /live", "Authorization: " + served.bearer());
            PlainClient.send(byCookie, "GET /live", "Cookie: " + cookie);
            PlainClient.send(stays, "GET /live", "Authorization: Bearer " + other.text());
            for (Socket socket : new Socket[] {byHeader, byCookie, stays}) {
                assertThat(PlainClient.status(socket)).isEqualTo(200);
            }
            served.tokens.keep(served.token.kept().revoked(served.now.toString()));
            assertThat(ended(byHeader)).isTrue();
            assertThat(ended(byCookie)).isTrue();
            stays.setSoTimeout(2_000);
            assertThat(ended(stays)).isFalse();
        }
    }

    private String entered(CrewToken.Fresh token) {
        HttpResponse<String> enter = served.post(
                "/enter",
                ("token=" + token.text()).getBytes(StandardCharsets.UTF_8),
                "Content-Type",
                "application/x-www-form-urlencoded",
                "Origin",
                served.base().toString().replaceAll("/$", ""));
        return enter.headers().firstValue("Set-Cookie").orElseThrow().split(";", 2)[0];
    }

    private CrewToken.Fresh another(String name) {
        CrewToken.Fresh other = CrewToken.make(name, served.now.toString(), "", new SecureRandom());
        served.tokens.keep(other.kept());
        return other;
    }

    /** Of 2,000 visits in all one token has 50: it ends its own, and nobody else's. */
    @Test
    @Timeout(60)
    void oneTokensVisitsEndNobodyElses() throws IOException {
        String quiet = entered(another("quiet"));
        String first = entered(served.token);
        String last = first;
        for (int i = 0; i < 50; i++) {
            last = entered(served.token);
        }
        assertThat(client.get("/drives.csv", "Cookie: " + quiet)).isEqualTo(200);
        assertThat(client.get("/drives.csv", "Cookie: " + last)).isEqualTo(200);
        assertThat(client.get("/drives.csv", "Cookie: " + first)).isEqualTo(401);
    }

    /** From however many addresses: a quarter of all live pages are one token's at most. */
    @Test
    @Timeout(120)
    void oneTokensStreamsLeaveRoomForOthers() throws IOException {
        List<Socket> open = new ArrayList<>();
        try {
            int refused = 0;
            for (int i = 0; i < 120; i++) {
                PlainClient from = new PlainClient("127.0.1." + (1 + i % 4), served.server.port());
                Socket socket = from.connect();
                open.add(socket);
                PlainClient.send(socket, "GET /live", "Authorization: " + served.bearer());
                refused += PlainClient.status(socket) == 200 ? 0 : 1;
            }
            assertThat(refused).isEqualTo(20);
            try (Socket other = client.connect()) {
                PlainClient.send(
                        other,
                        "GET /live",
                        "Authorization: Bearer " + another("other").text());
                assertThat(PlainClient.status(other)).isEqualTo(200);
            }
        } finally {
            for (Socket socket : open) {
                socket.close();
            }
        }
    }

    /** Whether the server ends the answer before the client loses patience. */
    private static boolean ended(Socket socket) throws IOException {
        byte[] some = new byte[1_000];
        StringBuilder text = new StringBuilder();
        try {
            for (int n = socket.getInputStream().read(some);
                    n >= 0;
                    n = socket.getInputStream().read(some)) {
                text.append(new String(some, 0, n, StandardCharsets.ISO_8859_1));
                if (text.toString().contains("\r\n0\r\n\r\n")) {
                    return true;
                }
            }
            return true;
        } catch (java.net.SocketTimeoutException goesOn) {
            return false;
        }
    }

    @Test
    void wrongSecretsForATokenDoNotLockItsHolderOut() throws IOException {
        String wrong = "Authorization: Bearer crew-" + served.token.kept().id() + "-" + "A".repeat(43);
        PlainClient stranger = new PlainClient("127.0.0.6", served.server.port());
        for (int i = 0; i < 10; i++) {
            assertThat(stranger.get("/sync/1/names", wrong)).isEqualTo(401);
        }
        assertThat(stranger.get("/sync/1/names", wrong)).isEqualTo(429);
        String good = "Authorization: " + served.bearer();
        assertThat(client.get("/sync/1/names", good)).as("from elsewhere").isEqualTo(200);
        assertThat(stranger.get("/sync/1/names", good))
                .as("from the same address")
                .isEqualTo(200);
        assertThat(stranger.get("/", good)).isEqualTo(200);
    }
}
