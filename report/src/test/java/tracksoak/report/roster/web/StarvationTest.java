package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestReporter;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.profiles.base.Digests;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.RosterPeer;

/** A crew at work while one address misbehaves. Each row of "Attacks tried" in docs/roster.md names its test here. */
@Isolated("measures how long 200 clients wait")
class StarvationTest {

    private static final int DRIVES = 240;
    private static final double SECOND_MS = 1_000;

    /** How much longer than alone a crew may wait where it waits long already, as a factor. */
    private static final double BUSY_HOST_FACTOR = 4;

    private static final String NEIGHBOUR = "127.0.9.9";
    private static final long SEED = 20260214;

    @TempDir
    static Path folder;

    private static @Nullable Served shared;
    private static double aloneMs;

    @BeforeAll
    static void start() {
        shared = filled(folder);
    }

    /** A server with as many drives as a large crew has. */
    static Served filled(Path folder) {
        Served served = new Served(folder, Served::foundByPhones);
        // the first makes the key known
        served.desk.enter(Shows.pass("B4RN-0000", Shows.START).signed(served.key), "S-000");
        List<Parcel> parcels = new ArrayList<>();
        for (int i = 1; i < DRIVES; i++) {
            SignedRecord record = Shows.pass("B4RN-%04d".formatted(i), Shows.START.minusSeconds(i))
                    .signed(served.key);
            RosterEvent event = EventDraft.record(record, "S-%03d".formatted(i)).sign(served.key, served.now);
            parcels.add(new Parcel(event, Digests.gzip(record.canonical())));
        }
        for (int i = 0; i < parcels.size(); i += RosterPeer.MOST_PARCELS) {
            List<Parcel> some = parcels.subList(i, Math.min(parcels.size(), i + RosterPeer.MOST_PARCELS));
            assertThat(served.roster.peer().push(some).refused()).isEmpty();
        }
        return served;
    }

    @AfterAll
    static void stop() {
        Served served = served();
        served.close();
        assertThat(served.failures).isEmpty();
    }

    private static Served served() {
        Served served = shared;
        if (served == null) {
            throw new IllegalStateException("not started");
        }
        return served;
    }

    /** The server's clock goes on as the machine's does. */
    static Thread ticking(Served served) {
        Thread ticks = new Thread(() -> {
            long stepNs = Duration.ofMillis(100).toNanos();
            while (!Thread.currentThread().isInterrupted()) {
                SystemClocks.PARK.waitUntil(SystemClocks.NANO.nanoTime() + stepNs);
                served.now = served.now.plusNanos(stepNs);
            }
        });
        ticks.setDaemon(true);
        ticks.start();
        return ticks;
    }

    /** The wait that 99 % stay within where nobody misbehaves, in ms; found once. */
    private static synchronized double alone(Crew crew) throws Exception {
        if (aloneMs == 0) {
            crew.read(Duration.ofMillis(500), false);
            aloneMs = crew.read(Duration.ofSeconds(1), false).p99Ms();
        }
        return aloneMs;
    }

    @ParameterizedTest
    @EnumSource(Misbehaviour.class)
    @Timeout(600)
    void oneAddressDoesNotStarveTheCrew(Misbehaviour how) throws Exception {
        Served served = served();
        Crew crew = new Crew(served.server.port(), served.bearer(), SEED);
        Thread clock = ticking(served);
        try {
            double unharmedMs = alone(crew);
            try (Misbehaviour.Neighbour neighbour = how.begin(NEIGHBOUR, served.server.port(), served.bearer())) {
                SystemClocks.PARK.waitUntil(
                        SystemClocks.NANO.nanoTime() + Duration.ofMillis(500).toNanos());
                Crew.Seen seen = crew.read(Duration.ofSeconds(2), true);
                assertThat(seen.failures()).isEmpty();
                assertThat(seen.liveRefused()).isZero();
                assertThat(neighbour.tries()).isGreaterThan(20);
                // a host that is busy by itself lets a crew wait even without a neighbour
                assertThat(seen.p99Ms())
                        .as("99 %% of the crew's waits, in ms; alone %s", unharmedMs)
                        .isLessThan(Math.max(SECOND_MS, BUSY_HOST_FACTOR * unharmedMs));
            }
        } finally {
            clock.interrupt();
        }
    }

    @Test
    @Timeout(600)
    void memoryStaysFlatUnderMixedLoad(TestReporter reporter) throws Exception {
        soak(Duration.ofSeconds(12), 96 << 20, reporter);
    }

    @Test
    @Tag("nightly")
    @Timeout(2_700)
    void memoryStaysFlatOverHalfAnHourOfMixedLoad(TestReporter reporter) throws Exception {
        soak(Duration.ofMinutes(Integer.getInteger("tracksoak.soakMinutes", 30)), 64 << 20, reporter);
    }

    /**
     * Every misbehaviour in turn beside the crew's reads and a laptop's notes. Of half an hour's reads, some 70 bytes left behind by each are seen.
     */
    private static void soak(Duration length, long mostGrowthBytes, TestReporter reporter) throws Exception {
        Served served = served();
        Crew crew = new Crew(served.server.port(), served.bearer(), SEED);
        Map<Integer, Integer> answers = new TreeMap<>();
        long untilNs = SystemClocks.NANO.nanoTime() + length.toNanos();
        int round = 0;
        long firstBytes = 0;
        List<Double> waitsMs = new ArrayList<>();
        List<Misbehaviour> all = List.of(Misbehaviour.values());
        Thread clock = ticking(served);
        try {
            while (SystemClocks.NANO.nanoTime() < untilNs || round < 2 * all.size()) {
                Misbehaviour how = all.get(round % all.size());
                try (Misbehaviour.Neighbour neighbour = how.begin(NEIGHBOUR, served.server.port(), served.bearer())) {
                    served.desk.note("S-%03d".formatted(round % DRIVES), "round " + round);
                    Crew.Seen seen = crew.read(Duration.ofMillis(500), false);
                    assertThat(seen.failures()).as(how + " in round " + round).isEmpty();
                    waitsMs.add(seen.p99Ms());
                    neighbour.answers().forEach(status -> answers.merge(status, 1, Integer::sum));
                }
                round++;
                if (round == Misbehaviour.values().length) {
                    firstBytes = usedBytes(0);
                }
            }
        } finally {
            clock.interrupt();
        }
        long lastBytes = usedBytes(firstBytes + mostGrowthBytes);
        waitsMs.sort(null);
        reporter.publishEntry(
                "soak",
                "%d rounds; heap %d kB, then %d kB; p99 of a round %.0f ms in the middle, %.0f ms at worst"
                        .formatted(
                                round,
                                firstBytes >> 10,
                                lastBytes >> 10,
                                waitsMs.get(waitsMs.size() / 2),
                                waitsMs.get(waitsMs.size() - 1)));
        assertThat(lastBytes - firstBytes).as("growth of the heap in bytes").isLessThan(mostGrowthBytes);
        assertThat(answers).as("what the neighbour was told").doesNotContainKey(500);
    }

    /**
     * The least of several looks: Java leaves a collection out while some thread packs an answer, and then counts what is long dead.
     *
     * @param enough once less is in use, no further look is taken
     */
    private static long usedBytes(long enough) {
        long least = Long.MAX_VALUE;
        for (int look = 0; look < 10 && least >= enough; look++) {
            System.gc();
            least = Math.min(
                    least,
                    Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory());
            SystemClocks.PARK.waitUntil(
                    SystemClocks.NANO.nanoTime() + Duration.ofMillis(300).toNanos());
        }
        return least;
    }
}
