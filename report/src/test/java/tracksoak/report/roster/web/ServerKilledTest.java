package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.web.server.CrewToken;
import tracksoak.report.roster.web.server.TokenFile;

/** A server killed with kill -9 while laptops hand over: what it acknowledged is there, whole; the next sync brings the rest. */
class ServerKilledTest {

    private static final int ROUNDS = 3;
    private static final int RECORDS = 40;

    @TempDir
    Path folder;

    @Test
    void nothingAcknowledgedIsLostAndTheNextSyncBringsTheRest() throws IOException, InterruptedException {
        CrewToken.Fresh token = CrewToken.make("laptop", Shows.START.toString(), "", new SecureRandom());
        new TokenFile(folder.resolve(TokenFile.NAME)).keep(token.kept());
        List<String> acknowledged = Collections.synchronizedList(new ArrayList<>());
        try (Roster laptop = Roster.open(RosterPlace.sqlite(folder.resolve("laptop.db")), () -> Shows.START)) {
            TesterKey key = TesterKey.create("Wren");
            RosterDesk desk = laptop.desk(key);
            for (int i = 0; i < RECORDS; i++) {
                desk.enter(
                        Shows.pass("B4RN-%04d".formatted(i), Shows.START.minusSeconds(i))
                                .signed(key),
                        null);
            }
            for (int round = 0; round < ROUNDS; round++) {
                Process server = start();
                try (BufferedReader out =
                        new BufferedReader(new InputStreamReader(server.getInputStream(), StandardCharsets.UTF_8))) {
                    String address = out.readLine();
                    int killAfter = 4 + 5 * round;
                    RosterPeer there = new RemoteRoster(URI.create(address), token.text(), null);
                    handOverOneByOne(laptop, there, acknowledged, killAfter, server);
                }
                assertThat(server.waitFor(60, TimeUnit.SECONDS)).isTrue();
            }
            assertThat(acknowledged).hasSizeGreaterThan(4 + 9 + 14 - 1);
            try (Roster kept = Roster.open(RosterPlace.sqlite(folder.resolve("roster.db")), () -> Shows.START)) {
                List<String> there = kept.peer().refs("", 5_000);
                assertThat(there).containsAll(acknowledged);
                assertThat(kept.peer().pull(there))
                        .allMatch(parcel -> parcel.event().record() == null || parcel.gzip() != null);
                Sync.run(laptop.peer(), kept.peer(), (fetched, handedOver) -> {});
                assertThat(kept.peer().refs("", 5_000)).isEqualTo(laptop.peer().refs("", 5_000));
            }
        }
    }

    /** Two threads hand over at once; the server is killed while they do. */
    private static void handOverOneByOne(
            Roster laptop, RosterPeer there, List<String> acknowledged, int killAfter, Process server)
            throws InterruptedException {
        List<String> refs = laptop.peer().refs("", 5_000);
        List<Thread> hands = new ArrayList<>();
        int before = acknowledged.size();
        for (int hand = 0; hand < 2; hand++) {
            int first = hand;
            Thread thread = new Thread(() -> {
                for (int i = first; i < refs.size(); i += 2) {
                    if (acknowledged.contains(refs.get(i))) {
                        continue;
                    }
                    try {
                        List<Parcel> one = laptop.peer().pull(List.of(refs.get(i)));
                        Receipt receipt = there.push(one);
                        if (receipt.taken() + receipt.known() == 1) {
                            acknowledged.add(refs.get(i));
                        }
                    } catch (Problem gone) {
                        return;
                    }
                    if (acknowledged.size() - before >= killAfter) {
                        server.destroyForcibly();
                    }
                }
            });
            thread.start();
            hands.add(thread);
        }
        for (Thread thread : hands) {
            thread.join();
        }
        server.destroyForcibly();
    }

    private Process start() throws IOException {
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-cp",
                        System.getProperty("java.class.path"),
                        KilledServer.class.getName(),
                        folder.toString())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
    }
}
