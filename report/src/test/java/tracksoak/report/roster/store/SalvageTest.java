package tracksoak.report.roster.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Seeded;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterRescue;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.event.EventDraft;
import tracksoak.report.roster.event.EventJson;
import tracksoak.report.roster.event.EventKind;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.exchange.Intake;
import tracksoak.report.roster.exchange.Parcel;

/** What lies whole in the bytes of a damaged file comes back, and nothing else. 6 seeds here, 90 at night. */
class SalvageTest {

    private static final int PAGE = 4096;

    private static final TesterKey ADA = TesterKey.create("Ada");
    private static final TesterKey EVE = TesterKey.create("Eve");

    private static byte[] whole = new byte[0];
    private static Map<String, Parcel> all = Map.of();
    private static Map<String, List<int[]>> needed = Map.of();

    @TempDir
    Path folder = Path.of("");

    private Path file = Path.of("");

    @BeforeAll
    static void aRosterOfEverySizeOfEvent(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("roster.db");
        try (Roster roster = open(file)) {
            for (int i = 0; i < 25; i++) {
                String tag = "S-" + (100 + i);
                roster.desk(ADA)
                        .enter(Shows.pass("B4RN-" + (1000 + i), Shows.START).signed(ADA), tag);
                roster.desk(ADA).note(tag, "“Die Bühne” ".repeat(1 + 3 * i));
            }
            // taken back by name, these make an event of several pages
            for (int i = 0; i < 70; i++) {
                roster.desk(ADA).withdraw("S-100", "rattles");
            }
            roster.desk(ADA).restore("S-100", "glued");
            all = events(roster);
        }
        whole = Files.readAllBytes(file);
        needed = new HashMap<>();
        all.forEach((ref, parcel) -> needed.put(ref, needed(parcel)));
    }

    @BeforeEach
    void aCopy() throws IOException {
        file = folder.resolve("roster.db");
        Files.write(file, whole);
    }

    private static Roster open(Path file) {
        return Roster.open(RosterPlace.sqlite(file), () -> Shows.START);
    }

    private static Map<String, Parcel> events(Roster roster) {
        Map<String, Parcel> events = new HashMap<>();
        List<String> refs = roster.peer().refs("", 1000);
        for (String ref : refs) {
            events.put(ref, roster.peer().pull(List.of(ref)).get(0));
        }
        return events;
    }

    private RosterRescue.Result rescue(byte[] bytes) throws IOException {
        try (var files = Files.list(folder)) {
            for (Path old : files.toList()) {
                Files.delete(old);
            }
        }
        Files.write(file, bytes);
        return RosterRescue.rescue(file, null, ADA, () -> Shows.START);
    }

    private Set<String> found() {
        try (Roster roster = open(file)) {
            return events(roster).keySet();
        }
    }

    private int rootOf(String table) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
                Statement statement = connection.createStatement();
                ResultSet row =
                        statement.executeQuery("SELECT rootpage FROM sqlite_schema WHERE name = '" + table + "'")) {
            return row.getInt(1);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"event", "record_body", "sqlite_autoindex_record_body_1", "sqlite_autoindex_event_1"})
    void aBadPageAtTheRootLosesNoEvent(String table) throws IOException, SQLException {
        byte[] bytes = whole.clone();
        Seeded.random(1).nextBytes(noise);
        System.arraycopy(noise, 0, bytes, (rootOf(table) - 1) * PAGE, noise.length);
        RosterRescue.Result result = rescue(bytes);
        assertThat(found()).isEqualTo(all.keySet());
        assertThat(result.read().events()).isEqualTo(all.size());
        assertThat(result.read().lost()).isZero();
        assertThat(result.tally().records()).isEqualTo(25);
    }

    private final byte[] noise = new byte[600];

    @Test
    void theFirstPageIsNotNeeded() throws IOException {
        byte[] bytes = whole.clone();
        Arrays.fill(bytes, 0, PAGE, (byte) 0x41);
        assertThat(rescue(bytes).read()).isEqualTo(new Salvage.Result(all.size(), 0, false));
        assertThat(found()).isEqualTo(all.keySet());
    }

    @Test
    void aFileCutShortGivesWhatIsLeftAndCountsTheRest() throws IOException {
        Salvage.Result read =
                rescue(Arrays.copyOf(whole, whole.length / PAGE / 2 * PAGE)).read();
        assertThat(read.whole()).isFalse();
        assertThat(read.events()).isPositive().isEqualTo(found().size());
        assertThat(read.lost()).isPositive();
        assertThat(read.events() + read.lost()).isLessThanOrEqualTo(all.size());
    }

    @Test
    void whatWasOnlyInTheJournalComesBackToo() throws IOException {
        Path other = folder.resolve("other").resolve("roster.db");
        try (Roster roster = open(file)) {
            RosterEvent late = roster.desk(ADA).note("S-101", "hums");
            Files.createDirectories(other.getParent());
            Files.copy(Path.of(file + "-wal"), Path.of(other + "-wal"));
            Files.write(other, whole);
            try (var damaged = new java.io.RandomAccessFile(other.toFile(), "rw")) {
                damaged.seek(PAGE);
                damaged.write(new byte[whole.length / 2]);
            }
            assertThat(RosterRescue.damage(other)).isPresent();
            RosterRescue.rescue(other, null, ADA, () -> Shows.START);
            try (Roster rescued = open(other)) {
                assertThat(events(rescued)).containsKey(late.ref());
            }
        }
    }

    /** What every event needs is looked up in the whole file: its text, its record's pieces, and what leads from one to the next. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 6, 8, 9})
    void everyEventBesideTheDamageComesBack(int seed) throws IOException {
        beside(seed);
    }

    @Test
    @Tag("nightly")
    void everyEventBesideTheDamageComesBackOverManySeeds() throws IOException {
        for (int seed = 10; seed < 100; seed++) {
            beside(seed);
        }
    }

    private void beside(int seed) throws IOException {
        Random random = Seeded.random(seed);
        byte[] bytes = whole.clone();
        List<int[]> bad = new ArrayList<>();
        for (int i = 0; i <= seed % 10; i++) {
            byte[] spot = new byte[1 + random.nextInt(900)];
            random.nextBytes(spot);
            int at = random.nextInt(bytes.length - spot.length);
            System.arraycopy(spot, 0, bytes, at, spot.length);
            bad.add(new int[] {at, at + spot.length});
        }
        RosterRescue.Result result = rescue(bytes);
        Set<String> found = found();
        assertThat(all.keySet()).as("nothing else").containsAll(found);
        Set<String> beside = new HashSet<>();
        all.forEach((ref, parcel) -> {
            if (needed.getOrDefault(ref, List.of()).stream()
                    .noneMatch(part -> bad.stream().anyMatch(spot -> meet(part, spot)))) {
                beside.add(ref);
            }
        });
        assertThat(found).as("seed %d: %s", seed, result.read()).containsAll(beside);
        assertThat(result.read().events()).isEqualTo(found.size());
        assertThat(result.read().events() + result.read().lost()).isLessThanOrEqualTo(all.size());
        assertThat(result.read().whole())
                .isEqualTo(found.size() == all.size() && result.read().whole());
        assertThat(result.tally().whole()).isTrue();
    }

    private static boolean meet(int[] part, int[] spot) {
        return part[0] < spot[1] && spot[0] < part[1];
    }

    private static List<int[]> needed(Parcel parcel) {
        byte[] text = EventJson.bytes(parcel.event());
        List<int[]> parts = new ArrayList<>(pieces(text, text.length > 3000 ? 500 : 0));
        byte[] gzip = parcel.gzip();
        if (gzip != null && parcel.event().record() != null) {
            byte[] sha = parcel.event().record().sha256().getBytes(StandardCharsets.US_ASCII);
            byte[] cell = Arrays.copyOf(sha, sha.length + gzip.length);
            System.arraycopy(gzip, 0, cell, sha.length, gzip.length);
            parts.addAll(pieces(cell, 20));
        }
        if (parcel.event().kind() == EventKind.KEY_ADDED) {
            int page = parts.get(0)[0] / PAGE;
            return List.of(new int[] {page * PAGE, (page + 1) * PAGE});
        }
        return parts;
    }

    /** Where the pieces of these bytes lie: the first where most of it is, the others from the fifth byte of a page on. */
    private static List<int[]> pieces(byte[] bytes, int before) {
        List<int[]> pieces = new ArrayList<>();
        int done = 0;
        while (done < bytes.length) {
            int[] longest = longest(bytes, done);
            // the number of the next page may look like the text that goes on there
            for (int back = 0; longest[1] - longest[0] < Math.min(64, bytes.length - done) && back < 3; back++) {
                longest = longest(bytes, --done);
            }
            assertThat(longest[1])
                    .as("where %d of %d lie in the file", done, bytes.length)
                    .isPositive();
            pieces.add(new int[] {longest[0] - (done > 0 ? 4 : before), longest[1] + 4});
            done += longest[1] - longest[0];
        }
        return pieces;
    }

    private static int[] longest(byte[] bytes, int from) {
        int[] longest = {0, 0};
        for (int at = from > 0 ? 4 : 0; at < whole.length; at += from > 0 ? PAGE : 1) {
            int most = Math.min(bytes.length - from, PAGE - at % PAGE);
            int same = Arrays.mismatch(whole, at, at + most, bytes, from, from + most);
            int length = same < 0 ? most : same;
            if (length > longest[1] - longest[0]) {
                longest = new int[] {at, at + length};
            }
        }
        return longest;
    }

    /** Whoever's record is kept chose some of its bytes: rows and pages in them are no rows and pages. */
    @ParameterizedTest
    @ValueSource(ints = {0, 1})
    void aKeyHiddenInARecordIsNotMadeKnown(int damage) throws IOException, SQLException {
        Path hers = folder.resolve("eve.db");
        byte[] page;
        try (Roster roster = open(hers)) {
            roster.desk(EVE).enter(Shows.pass("E-7654321", Shows.START).signed(EVE), "E-1");
        }
        byte[] her = Files.readAllBytes(hers);
        int at = new String(her, StandardCharsets.ISO_8859_1).indexOf("\"kind\":\"key-added\"");
        page = Arrays.copyOfRange(her, at / PAGE * PAGE, at / PAGE * PAGE + PAGE);
        SignedRecord record = Shows.pass("E-1234567", Shows.START).signed(EVE);
        RosterEvent event = EventDraft.record(record, "E-2").sign(EVE, Shows.START);
        try (Roster roster = open(file)) {
            byte[] gzip = hiding(page, Intake.pack(record.canonical()));
            assertThat(roster.take(List.of(new Parcel(event, gzip))).refused()).isEmpty();
        }
        byte[] bytes = Files.readAllBytes(file);
        Seeded.random(damage).nextBytes(noise);
        int place = (rootOf(damage == 0 ? "event" : "record_body") - 1) * PAGE;
        System.arraycopy(noise, 0, bytes, place, noise.length);
        rescue(bytes);
        try (Roster roster = open(file)) {
            assertThat(events(roster)).containsKey(event.ref());
            assertThat(roster.keys().entries())
                    .extracting(entry -> entry.name())
                    .containsExactly("Ada");
        }
    }

    /** The same gzip with "extra fields" (RFC 1952, 2.3.1), many times over. */
    private static byte[] hiding(byte[] extra, byte[] gzip) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(new byte[] {0x1f, (byte) 0x8b, 8, 4, 0, 0, 0, 0, 0, 0});
        int times = 12;
        int length = times * extra.length + times;
        out.write(length & 0xff);
        out.write(length >> 8);
        for (int i = 0; i < times; i++) {
            out.writeBytes(extra);
            out.write(0);
        }
        out.write(gzip, 10, gzip.length - 10);
        return out.toByteArray();
    }
}
