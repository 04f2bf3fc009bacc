package tracksoak.report.roster;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.exchange.ExchangeFile;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.standing.CrewKeys;
import tracksoak.report.roster.standing.DriveFold;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.standing.PlainSource;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.SqlStore;
import tracksoak.report.roster.web.SyncPoint;

/**
 * Five laptops of a crew, each with its own clock, some of them wrong, enter and decide and meet at random, by network or by stick, and are cut
 * off anywhere. In the end all have the same, and it is what the plain fold over all events says.
 */
class CrewSyncTest {

    private static final int LAPTOPS = 5;
    private static final Session BARN = RunSketch.session("barn-32", 32);
    private static final Session TRIO = RunSketch.session("trio-8", 8);

    private static final class Laptop implements AutoCloseable {
        final SqlStore store;
        final Roster roster;
        final TesterKey key;
        volatile Instant now;
        private final @Nullable SyncPoint network;

        Laptop(Path file, String name, Instant now, boolean overNetwork) {
            this.now = now;
            this.key = TesterKey.create(name);
            this.store = SqlStore.open(RosterPlace.sqlite(file));
            this.roster = Roster.on(store, () -> this.now);
            this.network = overNetwork ? new SyncPoint(roster, file.resolveSibling(name), () -> this.now) : null;
        }

        /** As another laptop reaches it. */
        RosterPeer peer() {
            return network == null ? roster.peer() : network.client();
        }

        @Override
        public void close() {
            if (network != null) {
                network.close();
            }
            roster.close();
        }
    }

    /** A peer that is cut off at one call: before it does anything, or after, so that its answer is lost. */
    private static final class Flaky implements RosterPeer {
        private final RosterPeer real;
        private int left;
        private final boolean after;

        Flaky(RosterPeer real, int left, boolean after) {
            this.real = real;
            this.left = left;
            this.after = after;
        }

        private interface Call<T> {
            T now();
        }

        private <T> T through(Call<T> call) {
            boolean cut = left-- == 0;
            T answer = cut && !after ? null : call.now();
            if (cut || answer == null) {
                throw new Problem(Problem.Kind.UNREACHABLE, "sync", "", "cut off", "again");
            }
            return answer;
        }

        @Override
        public List<String> refs(String after, int limit) {
            return through(() -> real.refs(after, limit));
        }

        @Override
        public List<Parcel> pull(List<String> refs) {
            return through(() -> real.pull(refs.subList(0, Math.min(3, refs.size()))));
        }

        @Override
        public Receipt push(List<Parcel> parcels) {
            return through(() -> real.push(parcels));
        }
    }

    /** 60 at night; each build has three. */
    static List<Long> manySeeds() {
        return java.util.stream.LongStream.range(100, 160).boxed().toList();
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("manySeeds")
    @Tag("nightly")
    void allComeToTheSameWithManySeeds(long seed, @TempDir Path folder) throws IOException {
        history(seed, folder, seed % 2 == 0);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 20260214})
    void allComeToTheSame(long seed, @TempDir Path folder) throws IOException {
        history(seed, folder, false);
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {3})
    void allComeToTheSameThroughServers(long seed, @TempDir Path folder) throws IOException {
        history(seed, folder, true);
    }

    private static void history(long seed, Path folder, boolean overNetwork) throws IOException {
        Random random = Seeded.random(seed);
        List<Laptop> crew = new ArrayList<>();
        try {
            for (int i = 0; i < LAPTOPS; i++) {
                Instant clock = Shows.START.plus(Duration.ofHours(i == 4 ? 400 * 24 : random.nextInt(48) - 24));
                crew.add(new Laptop(folder.resolve("laptop-" + i + ".db"), "Tester " + i, clock, overNetwork));
            }
            for (int step = 0; step < 90; step++) {
                Laptop laptop = crew.get(random.nextInt(LAPTOPS));
                laptop.now = laptop.now.plusSeconds(random.nextInt(7200));
                act(laptop, crew.get(random.nextInt(LAPTOPS)), random);
            }
            // one meets all the others to gather, and once more to hand out
            List<Laptop> others = new ArrayList<>(crew);
            Laptop hub = others.remove(random.nextInt(LAPTOPS));
            for (int round = 0; round < 2; round++) {
                Collections.shuffle(others, random);
                for (Laptop other : others) {
                    Sync.run(hub.roster.peer(), other.peer(), (fetched, handedOver) -> {});
                }
            }
            same(crew);
        } finally {
            crew.forEach(Laptop::close);
        }
    }

    private static void act(Laptop laptop, Laptop other, Random random) throws IOException {
        RosterDesk desk = laptop.roster.desk(laptop.key);
        String serial = "B4RN-000" + random.nextInt(5);
        String tag = "S-00" + random.nextInt(5);
        List<DriveState> drives = laptop.store.changedSince(-1).states();
        String drive = drives.isEmpty()
                ? tag
                : drives.get(random.nextInt(drives.size())).id();
        try {
            switch (random.nextInt(12)) {
                case 0, 1 -> desk.enter(record(laptop, Shows.pass(serial, laptop.now), random), maybe(tag, random));
                case 2 -> desk.enter(record(laptop, Shows.fail(serial, laptop.now), random), maybe(tag, random));
                case 3 -> desk.enter(record(laptop, Shows.pass("", laptop.now), random), maybe(tag, random));
                case 4 -> desk.tag(drive, tag, "label put on");
                case 5 -> desk.note(drive, "note " + random.nextInt(100));
                case 6 -> desk.withdraw(drive, "loan " + random.nextInt(100));
                case 7 -> desk.restore(drive, "back");
                case 8 -> desk.settle(tag, drive, "looked at it");
                case 9 -> {
                    if (random.nextInt(8) == 0) {
                        desk.revokeKey(other.key.id(), "lost");
                    } else {
                        stick(laptop, other);
                    }
                }
                case 10 -> Sync.run(laptop.roster.peer(), other.peer(), (fetched, handedOver) -> {});
                default -> {
                    RosterPeer cut = new Flaky(other.peer(), random.nextInt(12), random.nextBoolean());
                    Sync.run(laptop.roster.peer(), cut, (fetched, handedOver) -> {});
                }
            }
        } catch (Problem e) {
            // a person asked for what cannot be, or the network was cut: that happens to crews
            assertThat(e.kind()).isIn(Problem.Kind.ASKED_WRONG, Problem.Kind.NOT_FOUND, Problem.Kind.UNREACHABLE);
        }
    }

    private static String maybe(String tag, Random random) {
        return random.nextInt(3) == 0 ? "S-009" : tag;
    }

    private static SignedRecord record(Laptop laptop, Shows show, Random random) {
        if (random.nextInt(3) == 0) {
            show.session(TRIO);
        }
        return show.signed(laptop.key);
    }

    private static void stick(Laptop from, Laptop to) throws IOException {
        ByteArrayOutputStream stick = new ByteArrayOutputStream();
        ExchangeFile.write(from.roster.peer(), stick);
        ExchangeFile.read(new ByteArrayInputStream(stick.toByteArray()), to.roster.peer(), true);
    }

    private static void same(List<Laptop> crew) {
        Laptop first = crew.get(0);
        Instant today = Shows.START.plus(Duration.ofDays(30));
        crew.forEach(laptop -> laptop.now = today);
        List<String> refs = first.store.refs("", 100_000);
        assertThat(refs).hasSizeGreaterThan(40);
        Map<String, DriveState> expected = fold(first, refs);
        for (Laptop laptop : crew) {
            assertThat(laptop.store.refs("", 100_000)).isEqualTo(refs);
            assertThat(byId(laptop.store.changedSince(-1).states())).isEqualTo(expected);
            assertThat(laptop.roster.keys()).isEqualTo(first.roster.keys());
            assertThat(laptop.roster.conflicts()).isEqualTo(first.roster.conflicts());
            for (Session session : List.of(BARN, TRIO)) {
                assertThat(laptop.roster.board(BoardQuery.all(session)).rows())
                        .isEqualTo(first.roster.board(BoardQuery.all(session)).rows());
            }
        }
    }

    /** The plain way: verify each event anew, in an order of its own, and fold the whole set at once. */
    private static Map<String, DriveState> fold(Laptop laptop, List<String> refs) {
        List<KnownEvent> events = new ArrayList<>();
        for (Parcel parcel : laptop.store.parcels(refs, Long.MAX_VALUE)) {
            events.add(Intake.check(parcel).known());
        }
        Collections.shuffle(events, new Random(7));
        events.addAll(List.copyOf(events.subList(0, 10)));
        CrewKeys book = CrewKeys.of(events);
        return byId(events.stream()
                .flatMap(known -> Stream.of(known.event().drive(), known.event().looseDrive())
                        .filter(id -> id != null))
                .distinct()
                .map(id -> DriveFold.of(String.valueOf(id), new PlainSource(events), book))
                .filter(fold -> !fold.needless())
                .map(DriveFold::state)
                .toList());
    }

    private static Map<String, DriveState> byId(Collection<DriveState> drives) {
        return drives.stream().collect(Collectors.toMap(DriveState::id, state -> state, (a, b) -> a, TreeMap::new));
    }
}
