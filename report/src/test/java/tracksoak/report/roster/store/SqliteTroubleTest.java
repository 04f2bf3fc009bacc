package tracksoak.report.roster.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.lang.reflect.InvocationHandler;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.record.json.RecordFile;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterRescue;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.identity.DriveIdentity;

/** A file that is locked, damaged, newer or out of room: said clearly, and nothing acknowledged is lost. */
class SqliteTroubleTest {

    private final TesterKey ada = TesterKey.create("Ada");

    @TempDir
    Path folder = Path.of("");

    private Path file() {
        return folder.resolve("roster.db");
    }

    private static Problem trouble(org.assertj.core.api.ThrowableAssert.ThrowingCallable call) {
        return catchThrowableOfType(Problem.class, call);
    }

    private Roster open() {
        return Roster.open(RosterPlace.sqlite(file()), () -> Shows.START);
    }

    private void fill(int drives) {
        try (Roster roster = open()) {
            for (int i = 0; i < drives; i++) {
                roster.desk(ada)
                        .enter(Shows.pass("B4RN-" + (1000 + i), Shows.START).signed(ada), "S-" + (1000 + i));
            }
        }
    }

    @Test
    void whatIsNoDatabaseIsLeftAloneAndSaid() throws IOException {
        byte[] letter = "Dear crew,\n".repeat(500).getBytes(java.nio.charset.StandardCharsets.UTF_8);
        Files.write(file(), letter);
        assertThat(trouble(this::open).kind()).isEqualTo(Kind.CORRUPT);
        assertThat(trouble(this::open))
                .hasMessageContaining("roster.db")
                .hasMessageContaining("make it anew with roster rescue: the damaged file is kept");
        assertThat(Files.readAllBytes(file())).isEqualTo(letter);
    }

    /** A recording, a letter, a single byte: whatever was named by a slip stays what and where it is. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "RIFF....WAVEfmt and then the show",
                "Dear crew, this is a list of props",
                "S",
                "SQLite format 2\0and more"
            })
    void aFileOfAnotherKindIsNoRosterAndNothingTouchesIt(String content) throws IOException {
        Path file = Files.writeString(folder.resolve("s.wav"), content);
        Set<PosixFilePermission> rights = rights(file);
        assertThat(trouble(() -> Roster.open(RosterPlace.sqlite(file), () -> Shows.START)))
                .hasMessageContaining("s.wav is no roster")
                .hasMessageNotContaining("make it anew")
                .extracting(Problem::kind)
                .isEqualTo(Kind.REFUSED);
        assertThat(trouble(() -> RosterRescue.damage(file)).kind()).isEqualTo(Kind.REFUSED);
        assertThat(trouble(() -> RosterRescue.rescue(file, null, ada, () -> Shows.START))
                        .kind())
                .isEqualTo(Kind.REFUSED);
        assertThat(file).hasContent(content);
        assertThat(rights(file)).isEqualTo(rights);
        try (var files = Files.list(folder)) {
            assertThat(files).containsExactly(file);
        }
    }

    @Test
    void aFolderIsNoRoster() throws IOException {
        Problem trouble = trouble(() -> Roster.open(RosterPlace.sqlite(folder), () -> Shows.START));
        assertThat(trouble.kind()).isEqualTo(Kind.REFUSED);
        assertThat(trouble)
                .hasMessageContaining(folder + " is a folder")
                .hasMessageContaining(folder.resolve("roster.db").toString());
        try (var files = Files.list(folder)) {
            assertThat(files).isEmpty();
        }
    }

    @Test
    @DisabledOnOs(OS.WINDOWS)
    void aDeviceOrAPipeIsNoRoster() throws IOException, InterruptedException {
        Path pipe = folder.resolve("pipe");
        assertThat(new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor())
                .isZero();
        for (Path one : List.of(Path.of("/dev/null"), pipe)) {
            Problem trouble = trouble(() -> Roster.open(RosterPlace.sqlite(one), () -> Shows.START));
            assertThat(trouble.kind()).isEqualTo(Kind.REFUSED);
            assertThat(trouble).hasMessageContaining(one + " is no ordinary file");
        }
        try (var files = Files.list(folder)) {
            assertThat(files).containsExactly(pipe);
        }
    }

    private static Set<PosixFilePermission> rights(Path file) throws IOException {
        return OS.WINDOWS.isCurrentOs() ? Set.of() : Files.getPosixFilePermissions(file);
    }

    @Test
    void anEmptyFileBecomesARoster() throws IOException {
        Path file = Files.createFile(folder.resolve("empty.db"));
        try (Roster roster = Roster.open(RosterPlace.sqlite(file), () -> Shows.START)) {
            assertThat(roster.events()).isZero();
        }
    }

    @Test
    void theDatabaseOfAnotherProgramIsNoRosterAndNothingTouchesIt() throws IOException, SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
                Statement statement = connection.createStatement()) {
            statement.execute("CREATE TABLE cue (name TEXT)");
        }
        Files.setPosixFilePermissions(file(), PosixFilePermissions.fromString("rw-r--r--"));
        byte[] before = Files.readAllBytes(file());
        assertThat(trouble(this::open).kind()).isEqualTo(Kind.REFUSED);
        assertThat(trouble(this::open))
                .hasMessageContaining("holds tables of another program; nothing of it was touched");
        assertThat(trouble(() -> RosterRescue.rescue(file(), null, ada, () -> Shows.START))
                        .kind())
                .isEqualTo(Kind.REFUSED);
        assertThat(MessageDigest.isEqual(Files.readAllBytes(file()), before)).isTrue();
        assertThat(Files.getPosixFilePermissions(file())).hasSize(4);
        try (Stream<Path> beside = Files.list(folder)) {
            assertThat(beside).containsExactly(file());
        }
    }

    @Test
    void aNewerSchemaIsRefusedAndNotTouched() throws SQLException {
        fill(1);
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
                Statement statement = connection.createStatement()) {
            statement.execute(
                    "INSERT INTO roster_schema_history SELECT 99, '99', 'later', type, 'V99__later.sql', checksum,"
                            + " installed_by, installed_on, execution_time, success FROM roster_schema_history LIMIT 1");
        }
        assertThat(trouble(this::open).kind()).isEqualTo(Kind.NEWER);
        assertThat(trouble(this::open)).hasMessageContaining("99");
    }

    @Test
    void whatIsChangedInTheFileItselfShowsAndARebuildPassesItOver() throws SQLException {
        fill(2);
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
                Statement statement = connection.createStatement()) {
            assertThat(statement.executeUpdate("UPDATE event SET body = REPLACE(body, 'S-1000', 'S-2000')"
                            + " WHERE body LIKE '%S-1000%'"))
                    .isEqualTo(1);
        }
        try (Roster roster = open()) {
            assertThat(roster.history("S-1000"))
                    .extracting(entry -> entry.author().name())
                    .containsExactly("CHANGED");
            roster.rebuild();
            assertThat(roster.board(BoardQuery.all(null)).rows())
                    .extracting(row -> row.standing().standing().word())
                    .containsExactlyInAnyOrder("cleared", "unproven");
        }
    }

    @Test
    void aStartStoppedWhileItWorksAllOutGoesOnWhereItWas() throws SQLException {
        int some = SqlStore.PAGE + 5;
        fill(some);
        try (Roster early = open();
                SqlStore store = SqlStore.open(RosterPlace.sqlite(file()))) {
            List<BoardRow> rows = early.board(BoardQuery.all(null)).rows();
            assertThat(rows).hasSize(some);
            stopAt(store.refs("", 2 * some).get(some - 1));
            // one that had it open meanwhile takes nothing for whole that is not
            assertThat(store.changedSince(-1).states()).hasSize(some);
            stopAt(store.refs("", 2 * some).get(some - 1));
            List<Long> wanting = new ArrayList<>();
            try (Roster later = Roster.open(RosterPlace.sqlite(file()), () -> Shows.START, wanting::add)) {
                assertThat(wanting).as("all but the first page").allMatch(events -> events >= 5 && events < 10);
                assertThat(later.board(BoardQuery.all(null)).rows()).isEqualTo(rows);
            }
            try (Roster done = Roster.open(RosterPlace.sqlite(file()), () -> Shows.START, wanting::add)) {
                assertThat(done.board(BoardQuery.all(null)).rows()).isEqualTo(rows);
            }
            assertThat(wanting).as("asked once").hasSize(1);
        }
    }

    @Test
    void twoThatWorkAllOutAtOnceDoItOnce() throws SQLException {
        int some = SqlStore.PAGE + 1;
        fill(some);
        try (SqlStore store = SqlStore.open(RosterPlace.sqlite(file()))) {
            stopAt(store.refs("", 2 * some).get(some - 1));
        }
        Roster.open(RosterPlace.sqlite(file()), () -> Shows.START, wanting -> open().close())
                .close();
        try (SqlStore store = SqlStore.open(RosterPlace.sqlite(file()))) {
            long version = store.version();
            assertThat(store.changedSince(-1).states()).hasSize(some);
            assertThat(store.version()).as("nothing made anew").isEqualTo(version);
        }
    }

    /** Opens it as a newer program would, and is stopped before this event. */
    private void stopAt(String ref) throws SQLException {
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
                Statement statement = connection.createStatement()) {
            statement.execute("UPDATE roster_state SET derived = 1");
            statement.execute("CREATE TRIGGER stop BEFORE INSERT ON event WHEN NEW.ref = '" + ref
                    + "' BEGIN SELECT RAISE(ABORT, 'stopped'); END");
            assertThat(trouble(this::open)).isNotNull();
            statement.execute("DROP TRIGGER stop");
        }
    }

    @Test
    @DisabledOnOs(OS.WINDOWS)
    void theFileAndItsFolderAreReadableByTheirOwnerOnly() throws IOException {
        Path file = folder.resolve("new").resolve("roster.db");
        try (Roster roster = Roster.open(RosterPlace.sqlite(file), () -> Shows.START)) {
            roster.desk(ada).tag(DriveIdentity.of("Maker", "Model", "B4RN-0001", 1L << 30), "S-001", "new");
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file.getParent())))
                    .isEqualTo("rwx------");
            try (var files = Files.list(file.getParent())) {
                assertThat(files.toList())
                        .allSatisfy(one -> assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(one)))
                                .isEqualTo("rw-------"));
            }
        }
        Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
        Roster.open(RosterPlace.sqlite(file), () -> Shows.START).close();
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(file)))
                .isEqualTo("rw-------");
    }

    @Test
    void manyProcessesMayMakeTheFileAtOnce() throws Exception {
        ExecutorService crew = Executors.newFixedThreadPool(4);
        try {
            for (int file = 0; file < 4; file++) {
                RosterPlace place = RosterPlace.sqlite(folder.resolve(file + ".db"));
                Callable<Long> first = () -> {
                    try (Roster roster = Roster.open(place, () -> Shows.START)) {
                        return roster.events();
                    }
                };
                for (Future<Long> events : crew.invokeAll(Collections.nCopies(4, first))) {
                    assertThat(events.get()).isZero();
                }
            }
        } finally {
            crew.shutdownNow();
        }
    }

    @Test
    void aFileThatAnotherProgramMakesWhileItIsLookedForIsTakenAsItIs() {
        RosterPlace place = RosterPlace.sqlite(file());
        DataSource plain = Dialect.SQLITE.source(place, Settings.USUAL);
        DataSource overtaken = standIn(DataSource.class, (source, get, none) -> {
            Connection connection = plain.getConnection();
            return standIn(Connection.class, (proxy, method, values) -> {
                if (method.getName().equals("getMetaData")) {
                    open().close();
                }
                try {
                    return method.invoke(connection, values);
                } catch (InvocationTargetException e) {
                    throw e.getCause();
                }
            });
        });
        try (Connections connections = new Connections(Dialect.SQLITE, overtaken)) {
            Migrations.run(place, Dialect.SQLITE, overtaken, connections);
        }
        try (Roster roster = open()) {
            assertThat(roster.events()).isZero();
        }
    }

    private static <T> T standIn(Class<T> type, InvocationHandler does) {
        return type.cast(Proxy.newProxyInstance(SqliteTroubleTest.class.getClassLoader(), new Class<?>[] {type}, does));
    }

    @Test
    void aLockedFileIsSaid() throws SQLException {
        fill(1);
        try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + file());
                Statement statement = other.createStatement()) {
            statement.execute("BEGIN IMMEDIATE");
            try (SqlStore store = SqlStore.open(RosterPlace.sqlite(file()), new Settings(20, 0), events -> {})) {
                Roster roster = Roster.on(store, () -> Shows.START);
                assertThat(roster.board(BoardQuery.all(null)).rows()).hasSize(1);
                Problem busy = trouble(() -> roster.desk(ada).note("S-1000", "hello"));
                assertThat(busy.kind()).isEqualTo(Kind.BUSY);
                assertThat(busy).hasMessageContaining("locked");
                statement.execute("ROLLBACK");
                roster.desk(ada).note("S-1000", "hello");
                assertThat(roster.history("S-1000")).hasSize(2);
            }
        }
    }

    @Test
    void aFullDiskLosesNothingThatWasAcknowledged() {
        fill(1);
        List<String> acknowledged = new ArrayList<>();
        try (SqlStore store = SqlStore.open(RosterPlace.sqlite(file()), new Settings(1000, 120), events -> {})) {
            Roster roster = Roster.on(store, () -> Shows.START);
            Problem full = null;
            for (int i = 0; i < 200 && full == null; i++) {
                int number = i;
                full = trouble(() -> acknowledged.add(roster.desk(ada)
                        .enter(Shows.pass("B4RN-2" + number, Shows.START).signed(ada), null)
                        .ref()));
            }
            assertThat(full).isNotNull().extracting(Problem::kind).isEqualTo(Kind.FULL);
            assertThat(acknowledged).isNotEmpty();
        }
        try (SqlStore store = SqlStore.open(RosterPlace.sqlite(file()))) {
            assertThat(store.refs("", 1000)).containsAll(acknowledged).hasSize(acknowledged.size() + 2);
            assertThat(store.parcels(acknowledged, Long.MAX_VALUE))
                    .allSatisfy(parcel -> assertThat(parcel.gzip()).isNotNull());
        }
    }

    @Test
    void aDamagedFileIsPutAsideAndMadeAnew() throws IOException {
        fill(40);
        Path records = folder.resolve("records");
        for (int i = 0; i < 45; i++) {
            RecordFile.save(
                    records.resolve("run-" + i).resolve("record.json"),
                    Shows.pass("B4RN-" + (1000 + i), Shows.START).record());
        }
        Files.writeString(Files.createDirectories(records.resolve("half")).resolve("record.json"), "{");
        damage();
        RosterRescue.Result result =
                RosterRescue.rescue(file(), records, ada, () -> Shows.START.plus(Duration.ofHours(1)));
        assertThat(result.aside()).exists();
        assertThat(result.read().whole()).isFalse();
        assertThat(result.records()).isBetween(5, 45);
        assertThat(result.unread()).containsExactly(records.resolve("half").resolve("record.json"));
        try (Roster roster = open()) {
            assertThat(roster.board(BoardQuery.all(null)).rows())
                    .hasSize(45)
                    .extracting(row -> row.standing().standing().word())
                    .containsOnly("cleared");
            assertThat(roster.board(BoardQuery.all(null)).rows())
                    .extracting(BoardRow::title)
                    .isNotEmpty();
        }
    }

    /** Random bytes over the middle of the file, its first page spared. */
    private void damage() throws IOException {
        try (RandomAccessFile damaged = new RandomAccessFile(file().toFile(), "rw")) {
            byte[] noise = new byte[(int) (damaged.length() / 3)];
            new Random(9).nextBytes(noise);
            damaged.seek(damaged.length() / 3);
            damaged.write(noise);
        }
    }
}
