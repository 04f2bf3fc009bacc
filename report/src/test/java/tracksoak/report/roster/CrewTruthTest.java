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
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.RecordRef;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RosterPeer;
import tracksoak.report.roster.exchange.Sync;
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
    private static final Instant TODAY = Shows.START.plus(Duration.ofDays(40));
    private static final Session BARN = Mischief.BARN;
    private static final Session TRIO = Mischief.TRIO;
    private static final String ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

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

    private final Map<String, Intake.Checked> looked = new HashMap<>();

    @Test
    void equalSetsGiveEqualBytes(@TempDir Path folder) throws IOException {
        seeds(1, 30, folder);
    }

    @Test
    @Tag("nightly")
    @Timeout(value = 2, unit = TimeUnit.HOURS)
    void equalSetsGiveEqualBytesForThousandsOfSeeds(@TempDir Path folder) throws IOException {
        seeds(1_000, 3_000, folder);
    }

    /** What looking the event over gives, without parsing and judging the same records again and again. */
    private Intake.Checked checked(Parcel parcel, Mischief mischief) {
        RosterEvent event = parcel.event();
        RecordRef ref = event.record();
        byte[] gzip = parcel.gzip();
        if (ref == null || gzip == null) {
            return Intake.check(parcel);
        }
        Intake.Checked full = looked.computeIfAbsent(ref.sha256(), sha -> Intake.check(parcel));
        boolean holds = Intake.signed(ref, mischief.canonical(ref.sha256())).holds();
        return new Intake.Checked(
                new KnownEvent(event.ref(), event, full.known().digest(), holds), full.session(), gzip);
    }

    private void seeds(long from, int count, Path folder) throws IOException {
        Mischief mischief = new Mischief(Shows.START, Seeded.random(from));
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
                history(seed, mischief, crew.subList(0, LAPTOPS), crew.get(LAPTOPS));
            } finally {
                crew.forEach(laptop -> laptop.roster.close());
            }
        }
    }

    private void history(long seed, Mischief mischief, List<Laptop> crew, Laptop late) {
        Random random = Seeded.random(seed);
        List<Parcel> events = mischief.events(EVENTS, random);
        for (Parcel parcel : events) {
            malleable(parcel.event(), random);
        }
        // everybody gets some of it, in an order of their own, some of it twice
        List<Intake.Checked> checked =
                events.stream().map(parcel -> checked(parcel, mischief)).toList();
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
}
