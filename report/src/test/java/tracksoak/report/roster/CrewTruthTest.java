package tracksoak.report.roster;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.RunSketch;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.EventName;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.identity.DriveId;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.KnownEvent;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.SqlStore;

/**
 * Five laptops, and people among their crew who mean harm and whose signatures are good: what the table says follows from the set of events
 * alone. Equal sets give equal rows, conflicts and counts, of which {@code roster list --json} is written, whatever order they came in and
 * however often they were cut off.
 */
class CrewTruthTest {

    private static final int LAPTOPS = 5;
    private static final int EVENTS = 22;
    private static final int RECORDS = 48;
    private static final Instant TODAY = Shows.START.plus(Duration.ofDays(40));
    private static final Session BARN = RunSketch.session("barn-32", 32);
    private static final Session TRIO = RunSketch.session("trio-8", 8);
    private static final String ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

    /** The last of them is in nobody's list of keys. */
    private final List<TesterKey> people = List.of("Ada", "Bea", "Cleo", "Dan", "Eve").stream()
            .map(TesterKey::create)
            .toList();

    /** A roster in a file of its own. */
    private static final class Laptop {
        private final SqlStore store;
        private final Roster roster;

        Laptop(Path file) {
            store = SqlStore.open(RosterPlace.sqlite(file));
            roster = Roster.on(store, () -> TODAY);
        }

        /** Gets what is missing, in an order of its own, a few at a time. */
        void meets(List<Intake.Checked> all, Random random) {
            List<Intake.Checked> rest = new ArrayList<>(all);
            Collections.shuffle(rest, random);
            int at = 0;
            while (at < rest.size()) {
                int until = Math.min(rest.size(), at + 1 + random.nextInt(rest.size()));
                store.append(rest.subList(at, until));
                at = until;
            }
        }
    }

    private final List<SignedRecord> records = new ArrayList<>();
    private final Map<String, Intake.Checked> looked = new HashMap<>();
    private final Map<String, byte[]> bytes = new HashMap<>();
    private final Map<String, byte[]> packed = new HashMap<>();

    private void makeRecords(Random random) {
        for (int i = 0; i < RECORDS; i++) {
            String serial = List.of("B4RN-0001", "B4RN-0002", "00000000").get(random.nextInt(3));
            Instant ended = Shows.START.plus(Duration.ofHours(random.nextInt(24 * 60) - 24 * 20L));
            Shows show = random.nextInt(3) == 0 ? Shows.fail(serial, ended) : Shows.pass(serial, ended);
            Session session = random.nextBoolean() ? BARN : TRIO;
            show.session(valid(session, random.nextInt(4) == 0 ? "fair" : session.name(), 10 + 40 * random.nextInt(3)));
            if (random.nextInt(8) == 0) {
                show.sketch.ioMode = IoMode.SIMULATED;
            }
            SignedRecord record = show.signed(people.get(random.nextInt(people.size())));
            records.add(record);
            bytes.put(record.sha256(), record.canonical());
            packed.put(record.sha256(), Intake.pack(record.canonical()));
        }
    }

    @Test
    void equalSetsGiveEqualBytes(@TempDir Path folder) throws IOException {
        seeds(1, 30, folder);
    }

    @Test
    @Tag("nightly")
    void equalSetsGiveEqualBytesForThousandsOfSeeds(@TempDir Path folder) throws IOException {
        seeds(1_000, 3_000, folder);
    }

    /** What looking the event over gives, without parsing and judging the same records again and again. */
    private Intake.Checked checked(Parcel parcel) {
        RosterEvent event = parcel.event();
        RecordRef ref = event.record();
        byte[] gzip = parcel.gzip();
        if (ref == null || gzip == null) {
            return Intake.check(parcel);
        }
        Intake.Checked full = looked.computeIfAbsent(ref.sha256(), sha -> Intake.check(parcel));
        boolean holds = Intake.signed(ref, Objects.requireNonNull(bytes.get(ref.sha256())))
                .holds();
        return new Intake.Checked(
                new KnownEvent(event.ref(), event, full.known().digest(), holds), full.session(), gzip);
    }

    private void seeds(long from, int count, Path folder) throws IOException {
        makeRecords(new Random(from));
        Path template = folder.resolve("template.db");
        Roster.open(RosterPlace.sqlite(template), () -> TODAY).close();
        for (long seed = from; seed < from + count; seed++) {
            Path own = Files.createDirectory(folder.resolve("seed-" + seed));
            List<Laptop> crew = new ArrayList<>();
            try {
                for (int i = 0; i <= LAPTOPS; i++) {
                    Path file = own.resolve(i + ".db");
                    Files.copy(template, file);
                    crew.add(new Laptop(file));
                }
                history(seed, crew.subList(0, LAPTOPS), crew.get(LAPTOPS));
            } finally {
                crew.forEach(laptop -> laptop.roster.close());
            }
        }
    }

    private void history(long seed, List<Laptop> crew, Laptop late) {
        Random random = new Random(seed);
        List<Parcel> events = events(random);
        for (Parcel parcel : events) {
            malleable(parcel.event(), random);
        }
        // everybody gets some of it, in an order of their own, some of it twice
        List<Intake.Checked> checked = events.stream().map(this::checked).toList();
        for (Laptop laptop : crew) {
            List<Intake.Checked> mine = new ArrayList<>(
                    checked.stream().filter(one -> random.nextInt(3) > 0).toList());
            mine.addAll(mine.subList(0, mine.size() / 4));
            Collections.shuffle(mine, random);
            for (int at = 0; at < mine.size(); at += 8) {
                laptop.store.append(mine.subList(at, Math.min(mine.size(), at + 8)));
            }
        }
        // most meet without looking everything over again, which is what costs; some really sync, and are cut off
        if (seed % 10 == 0) {
            for (int i = 0; i < 4; i++) {
                cutShort(crew.get(random.nextInt(LAPTOPS)).roster, crew.get(random.nextInt(LAPTOPS)).roster, random);
            }
            for (int round = 0; round < 2; round++) {
                for (Laptop other : crew.subList(1, LAPTOPS)) {
                    assertThat(Sync.run(crew.get(0).roster.peer(), other.roster.peer(), (fetched, handedOver) -> {})
                                    .same())
                            .isTrue();
                }
            }
        } else {
            crew.forEach(laptop -> laptop.meets(checked, random));
        }
        if (seed % 10 == 0) {
            List<Parcel> all = pulled(crew.get(0).roster);
            Collections.reverse(all);
            late.roster.take(all);
            late.roster.rebuild();
        } else {
            late.store.append(checked);
        }
        List<String> refs = late.store.refs("", 1_000);
        String expected = said(late.roster);
        for (Laptop laptop : crew) {
            assertThat(laptop.store.refs("", 1_000)).as("seed %d", seed).isEqualTo(refs);
            assertThat(said(laptop.roster)).as("seed %d", seed).isEqualTo(expected);
        }
    }

    private static List<Parcel> pulled(Roster roster) {
        return new ArrayList<>(roster.peer().pull(roster.peer().refs("", 200)));
    }

    /** All that {@code roster list --json} prints of, without a session and with two; and which sessions there are to ask about. */
    private static String said(Roster roster) {
        StringBuilder said = new StringBuilder();
        for (Session session : Arrays.asList(null, BARN, TRIO)) {
            Board board = roster.board(BoardQuery.all(session));
            said.append(board.counts()).append('\n');
            board.rows().forEach(row -> said.append(row).append('\n'));
        }
        return said.append(roster.conflicts())
                .append(roster.sessions())
                .append(roster.keys().entries())
                .toString();
    }

    private static void cutShort(Roster here, Roster there, Random random) {
        int calls = random.nextInt(4);
        RosterPeer real = there.peer();
        RosterPeer cut = new RosterPeer() {
            private int left = calls;

            private void step() {
                if (left-- == 0) {
                    throw new Problem(Problem.Kind.UNREACHABLE, "the sync", "", "cut off", "again");
                }
            }

            @Override
            public List<String> refs(String after, int limit) {
                step();
                return real.refs(after, limit);
            }

            @Override
            public List<Parcel> pull(List<String> refs) {
                step();
                return real.pull(refs.subList(0, Math.min(3, refs.size())));
            }

            @Override
            public Receipt push(List<Parcel> parcels) {
                Receipt receipt = real.push(parcels);
                step();
                return receipt;
            }
        };
        Throwable thrown = catchThrowable(() -> Sync.run(here.peer(), cut, (fetched, handedOver) -> {}));
        assertThat(thrown == null || thrown instanceof Problem).isTrue();
    }

    private List<Parcel> events(Random random) {
        List<Parcel> events = new ArrayList<>();
        for (TesterKey key : people.subList(0, people.size() - 1)) {
            if (random.nextInt(6) > 0) {
                add(events, EventDraft.addKey(key.verifyKey(), key.name(), ""), key, random);
            }
        }
        while (events.size() < EVENTS) {
            act(events, people.get(random.nextInt(people.size())), random);
        }
        return events;
    }

    private void act(List<Parcel> events, TesterKey author, Random random) {
        TesterKey other = people.get(random.nextInt(people.size()));
        String tag = "S-00" + random.nextInt(3);
        String drive = drive(events, random);
        switch (random.nextInt(12)) {
            case 0, 1, 2, 3, 4 -> enter(events, author, random);
            case 5 -> add(events, EventDraft.tag(drive, identity(events, drive, tag), tag, "label"), author, random);
            case 6 -> add(events, EventDraft.note(drive, "note " + random.nextInt(100)), author, random);
            case 7, 8 -> add(events, EventDraft.withdraw(drive, "loan " + random.nextInt(100)), author, random);
            case 9 -> add(events, EventDraft.restore(drive, names(events, random), "back"), author, random);
            case 10 ->
                add(
                        events,
                        EventDraft.settle(drive, random.nextBoolean() ? tag : null, names(events, random), "looked"),
                        author,
                        random);
            default ->
                add(
                        events,
                        random.nextInt(3) == 0
                                ? EventDraft.addKey(other.verifyKey(), author.name() + " says", "")
                                : EventDraft.revokeKey(other.verifyKey(), other.name(), "stolen"),
                        author,
                        random);
        }
    }

    /** Whoever has a record can enter it again: under another tag, and with another signature or none. */
    private void enter(List<Parcel> events, TesterKey author, Random random) {
        SignedRecord record = records.get(random.nextInt(RECORDS));
        if (random.nextInt(4) == 0) {
            byte[] signature = random.nextBoolean() ? new byte[0] : author.sign(new byte[] {1});
            TesterKey claimed = people.get(random.nextInt(people.size()));
            record = SignedRecord.kept(record.canonical(), claimed.name(), claimed.verifyKey(), signature);
        }
        String tag = random.nextInt(3) == 0 ? null : "S-00" + random.nextInt(3);
        RosterEvent event = EventDraft.record(record, tag).sign(author, clock(random));
        events.add(new Parcel(event, packed.get(record.sha256())));
    }

    private static void add(List<Parcel> events, EventDraft draft, TesterKey author, Random random) {
        events.add(new Parcel(draft.sign(author, clock(random)), null));
    }

    /** Everybody's clock is wrong in its own way. */
    private static Instant clock(Random random) {
        return Shows.START.plusSeconds(random.nextInt(200 * 86_400) - 100 * 86_400L);
    }

    private static String drive(List<Parcel> events, Random random) {
        List<String> drives = events.stream()
                .map(parcel -> parcel.event().drive())
                .filter(id -> id != null)
                .map(String::valueOf)
                .toList();
        return drives.isEmpty() ? "d-00000000000000000000" : drives.get(random.nextInt(drives.size()));
    }

    /** The hardware, where the event may name it: what an event says of hardware must lead to its drive. */
    private static @Nullable DriveIdentity identity(List<Parcel> events, String drive, String tag) {
        return events.stream()
                .filter(parcel ->
                        drive.equals(parcel.event().drive()) && parcel.event().record() != null)
                .map(parcel -> parcel.event().identity())
                .filter(identity -> identity != null
                        && (DriveId.isLoose(drive)
                                || DriveId.of(identity, tag, "").equals(drive)))
                .findFirst()
                .orElse(null);
    }

    private static List<String> names(List<Parcel> events, Random random) {
        List<String> names = new ArrayList<>();
        do {
            String name = events.get(random.nextInt(events.size())).event().ref();
            names.add(random.nextInt(4) == 0 ? EventName.old(name) : name);
        } while (random.nextBoolean());
        return names;
    }

    /** The same event in other letters is none. */
    private static void malleable(RosterEvent event, Random random) {
        String json = new String(EventJson.bytes(event), UTF_8);
        String signature = event.signature();
        int last = ALPHABET.indexOf(signature.charAt(signature.length() - 1));
        String other = random.nextBoolean()
                ? signature + "=="
                : signature.substring(0, signature.length() - 1) + ALPHABET.charAt(last ^ (1 + random.nextInt(15)));
        Throwable thrown = catchThrowable(
                () -> EventJson.read(json.replace(signature, other).getBytes(UTF_8)));
        assertThat(thrown).isInstanceOfAny(Problem.class, RecordException.class);
    }

    private static Session valid(Session session, String name, int days) {
        return session.but().name(name).validDays(days).build();
    }
}
