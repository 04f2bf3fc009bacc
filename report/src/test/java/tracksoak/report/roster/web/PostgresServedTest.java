package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Postgres;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.exchange.Tally;
import tracksoak.report.roster.store.RosterPlace;

/**
 * PostgreSQL restarted while four laptops hand over through the server and a phone reads: they are told to try again, nothing
 * acknowledged is lost, and nothing is half there.
 */
class PostgresServedTest {

    private static final int LAPTOPS = 4;
    private static final int RECORDS = 120;
    private static final int BEFORE = 30;

    @TempDir
    Path folder;

    /** Names of events that the server said it has. */
    private final Set<String> acknowledged = ConcurrentHashMap.newKeySet();

    private final CountDownLatch before = new CountDownLatch(BEFORE);

    @Test
    @Timeout(300)
    void nothingAcknowledgedIsLostAndNothingIsHalfThere() throws Exception {
        EmbeddedPostgres database = Postgres.startOn(folder.resolve("data"), 0);
        int port = database.getPort();
        RosterPlace place = RosterPlace.postgres(database.getJdbcUrl("postgres", "postgres"), "postgres", null);
        ExecutorService crew = Executors.newFixedThreadPool(LAPTOPS + 1);
        try (Served served = new Served(folder, place, settings -> settings);
                Roster laptop = laptop()) {
            RosterPeer own = laptop.peer();
            List<String> refs = own.refs("", 5_000);
            List<Future<Integer>> hands = new ArrayList<>();
            for (int hand = 0; hand < LAPTOPS; hand++) {
                int first = hand;
                hands.add(crew.submit(() -> handOver(served, own, refs, first)));
            }
            Future<Set<Integer>> phone = crew.submit(() -> look(served, refs.size()));
            assertThat(before.await(2, TimeUnit.MINUTES)).isTrue();
            database.close();
            Set<String> sure = Set.copyOf(acknowledged);
            assertThat(sure).as("handed over before PostgreSQL ended").hasSizeLessThan(refs.size());
            database = Postgres.startOn(folder.resolve("data"), port);
            int told = 0;
            for (Future<Integer> hand : hands) {
                told += hand.get(2, TimeUnit.MINUTES);
            }
            assertThat(told).as("times a laptop was told to try again").isPositive();
            assertThat(phone.get(2, TimeUnit.MINUTES)).contains(200).isSubsetOf(200, 429, 503);
            assertThat(served.roster.peer().refs("", 5_000))
                    .containsAll(sure)
                    .containsAll(acknowledged)
                    .isEqualTo(refs);
            assertThat(Tally.of(served.roster.peer())).isEqualTo(Tally.of(own)).matches(Tally::whole);
        } finally {
            crew.shutdownNow();
            database.close();
        }
    }

    private Roster laptop() {
        Roster laptop = Roster.open(RosterPlace.sqlite(folder.resolve("laptop.db")), () -> Shows.START);
        TesterKey key = TesterKey.create("Wren");
        RosterDesk desk = laptop.desk(key);
        for (int i = 0; i < RECORDS; i++) {
            desk.enter(Shows.pass("B4RN-%04d".formatted(i), Shows.START).signed(key), null);
        }
        return laptop;
    }

    /** Every fourth event, one by one, each until it is acknowledged; says how often it had to be tried again. */
    private int handOver(Served served, RosterPeer own, List<String> refs, int first) {
        RosterPeer there = new RemoteRoster(served.base(), served.token.text(), null);
        int again = 0;
        int next = first;
        while (next < refs.size()) {
            try {
                Receipt receipt = there.push(own.pull(List.of(refs.get(next))));
                assertThat(receipt.refused()).isEmpty();
                acknowledged.add(refs.get(next));
                before.countDown();
                next += LAPTOPS;
            } catch (Problem told) {
                assertThat(told.kind()).as(told.getMessage()).isIn(Kind.BUSY, Kind.UNREACHABLE);
                again++;
            }
        }
        return again;
    }

    /** What the page answers as long as the laptops hand over. */
    private Set<Integer> look(Served served, int events) {
        Set<Integer> answers = ConcurrentHashMap.newKeySet();
        do {
            answers.add(served.get("/", "Accept", "text/html").statusCode());
        } while (acknowledged.size() < events);
        return answers;
    }
}
