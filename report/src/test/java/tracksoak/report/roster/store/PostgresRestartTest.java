package tracksoak.report.roster.store;

import static org.assertj.core.api.Assertions.assertThat;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Postgres;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;

/** PostgreSQL restarted while four clients write: they are told, go on afterwards, and nothing acknowledged is lost. */
class PostgresRestartTest {

    private static final int CLIENTS = 4;

    @Test
    void nothingAcknowledgedIsLost(@TempDir Path folder) throws Exception {
        EmbeddedPostgres server = Postgres.startOn(folder.resolve("data"), 0);
        int port = server.getPort();
        RosterPlace place = RosterPlace.postgres(server.getJdbcUrl("postgres", "postgres"), "postgres", null);
        List<String> acknowledged = Collections.synchronizedList(new ArrayList<>());
        AtomicBoolean stop = new AtomicBoolean();
        CountDownLatch before = new CountDownLatch(12);
        CountDownLatch after = new CountDownLatch(12);
        AtomicBoolean restarted = new AtomicBoolean();
        ExecutorService crew = Executors.newFixedThreadPool(CLIENTS);
        try (Roster roster = Roster.open(place, () -> Shows.START)) {
            List<Future<Integer>> clients = new ArrayList<>();
            for (int client = 0; client < CLIENTS; client++) {
                int number = client;
                clients.add(crew.submit(() -> {
                    TesterKey key = TesterKey.create("Tester " + number);
                    int refused = 0;
                    for (int i = 0; !stop.get(); i++) {
                        try {
                            String serial = "B4RN-" + number + "-" + i;
                            acknowledged.add(roster.desk(key)
                                    .enter(Shows.pass(serial, Shows.START).signed(key), null)
                                    .ref());
                            (restarted.get() ? after : before).countDown();
                        } catch (Problem e) {
                            assertThat(e.kind()).isEqualTo(Problem.Kind.UNREACHABLE);
                            refused++;
                        }
                    }
                    return refused;
                }));
            }
            assertThat(before.await(2, TimeUnit.MINUTES)).isTrue();
            server.close();
            server = Postgres.startOn(folder.resolve("data"), port);
            restarted.set(true);
            assertThat(after.await(2, TimeUnit.MINUTES)).isTrue();
            stop.set(true);
            for (Future<Integer> client : clients) {
                assertThat(client.get(1, TimeUnit.MINUTES)).isNotNegative();
            }
            assertThat(roster.peer().refs("", 5000)).containsAll(acknowledged);
            assertThat(roster.board(BoardQuery.all(null)).rows())
                    .hasSizeGreaterThanOrEqualTo(acknowledged.size())
                    .extracting(row -> row.standing().standing().word())
                    .containsOnly("cleared");
        } finally {
            stop.set(true);
            crew.shutdownNow();
            server.close();
        }
    }
}
