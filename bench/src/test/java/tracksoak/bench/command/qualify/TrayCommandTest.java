package tracksoak.bench.command.qualify;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.tray.LiveState;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunShelf;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.Shows;
import tracksoak.report.roster.store.RosterPlace;

/** What is looked at before a tray, or a run that waited, is begun; no process is started here. */
class TrayCommandTest {

    @TempDir
    Path folder;

    private Path one = Path.of("unset");
    private Path two = Path.of("unset");
    private TestRooms rooms = new TestRooms(Path.of("unset"), List.of());

    @BeforeEach
    void furnish() throws IOException {
        one = Files.createDirectory(folder.resolve("one"));
        two = Files.createDirectory(folder.resolve("two"));
        rooms = new TestRooms(
                Files.createDirectory(folder.resolve("host")), List.of(TestRooms.roomy(one, "B4RN-0001")));
        rooms.at.put(two, TestRooms.roomy(two, "B4RN-0002"));
    }

    private Typed type(String line) {
        return Typed.run(
                rooms,
                Stream.of(line.split(" "))
                        .map(word -> word.replace("ONE", one.toString()).replace("TWO", two.toString()))
                        .toArray(String[]::new));
    }

    private RunShelf shelf() {
        return new RunShelf(rooms.stateFolder(), SystemClocks.EPOCH);
    }

    @Test
    void aDryRunSaysWhatEachDriveWouldGetAndLeavesNoTray() throws IOException {
        String line = "qualify --tray S-1=ONE TWO --session trio-8 --plan line-check --dry-run";
        Typed typed = type(line);
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out())
                .startsWith("S-1:\nNothing is written now.")
                .contains("\n" + two + ":\nNothing is written now.")
                .contains(
                        one.resolve("TRACKSOAK-*").toString(),
                        two.resolve("TRACKSOAK-*").toString(),
                        "  time ")
                .contains("\nTogether, begun in this order:\n  S-1");
        JsonNode json = new ObjectMapper().readTree(type(line + " --json").out());
        assertThat(json.at("/schema").textValue()).isEqualTo("tracksoak/tray-dry-run/1");
        assertThat(json.at("/drives")).hasSize(2);
        assertThat(json.at("/drives/0/dryRun/session").textValue()).isEqualTo("trio-8");
        assertThat(shelf().all()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(strings = {"--dry-run", "ONE", "--tray ONE", "--session trio-8", "--plan line-check", "--no-roster"})
    void whatIsGoneOnWithWasAskedForBefore(String more) {
        Typed typed = type("qualify --go-on " + more);
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("--go-on goes on with what the last tray was asked for");
    }

    @Test
    void aDriveThatCannotBeTestedIsToldBeforeAnyIsBegun() throws IOException {
        FoundDrive good = TestRooms.roomy(two, "B4RN-0002");
        rooms.at.put(
                two,
                new FoundDrive(
                        good.place(), good.facts().but().freeBytes(1_000L).build(), good.lockKey(), false, null));
        for (String more : List.of("", " --dry-run")) {
            Typed typed = type("qualify --tray ONE TWO --session trio-8 --plan line-check" + more);
            assertThat(typed.code()).isEqualTo(3);
            assertThat(typed.err()).contains(two.toString(), "room");
            assertThat(shelf().all()).isEmpty();
        }
        rooms.at.put(two, new FoundDrive(good.place(), good.facts(), good.lockKey(), true, null));
        Typed typed = type("qualify --tray ONE TWO --session trio-8 --plan line-check");
        assertThat(typed.code()).isEqualTo(3);
        assertThat(typed.err()).contains(two.toString());
        assertThat(shelf().all()).isEmpty();
    }

    @Test
    void oneTagIsNotGivenToTwoDrives() {
        Typed typed = type("qualify --tray s-1=ONE S-1=TWO --session trio-8 --plan line-check");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err())
                .contains("the tag S-1 is given to two drives", one.toString(), two.toString())
                .contains("give each drive a tag of its own");
        assertThat(type("qualify --tray ONE TWO --session trio-8 --plan line-check --tag S-1")
                        .code())
                .isEqualTo(2);
        assertThat(shelf().all()).isEmpty();
    }

    @Test
    void aTagThatTheRosterGivesToAnotherDriveIsToldBeforeTheRun() throws IOException {
        Files.createDirectories(rooms.rosterFolder());
        TesterKey ada = TesterKey.create("Ada");
        Shows other = Shows.pass("B4RN-0009", Shows.START);
        other.tag = "S-1";
        try (Roster roster = Roster.open(
                RosterPlace.sqlite(rooms.rosterFolder().resolve(RosterPlace.FILE)), () -> Shows.START.plusSeconds(9))) {
            roster.desk(ada).enter(other.signed(ada), null);
        }
        String said = "The roster has the tag S-1 on another drive, Makers of the Barn Stick <64>";
        assertThat(type("qualify --tray s-1=ONE S-2=TWO --session trio-8 --plan line-check --dry-run")
                        .out())
                .containsOnlyOnce(said)
                .contains("offered for tonight");
        assertThat(type("qualify ONE --tag s-1 --session trio-8 --plan line-check --dry-run")
                        .err())
                .contains(said);
        assertThat(type("qualify ONE --tag s-1 --session trio-8 --plan line-check --dry-run --no-roster")
                        .err())
                .doesNotContain(said);
    }

    private Path ordered(FoundDrive meant) {
        RunOrder order = new RunOrders(rooms, SystemClocks.EPOCH)
                .of(new RunOrders.Asked(meant, two, "S-2"), "", List.of("qualify"), "trio-8", "line-check", List.of());
        return shelf().put(order);
    }

    private Typed begin(Path run) {
        return type(
                "qualify TWO --session trio-8 --plan line-check --take 1s --idle 0s --length 1min --no-roster --out "
                        + folder.resolve("host/out") + " --live " + run);
    }

    private LiveState state() {
        return shelf().all().get(0).state();
    }

    /** While it waited for its turn another drive came to its place. */
    @Test
    void aRunThatWaitedTakesNoOtherDriveForTheOneThatWasMeant() throws IOException {
        FoundDrive meant = TestRooms.roomy(two, "B4RN-0002");
        for (FoundDrive there : List.of(
                TestRooms.roomy(two, "B4RN-0003"),
                new FoundDrive(
                        meant.place(),
                        meant.facts().but().sizeBytes(32_000_000_000L).build(),
                        meant.lockKey(),
                        false,
                        null),
                new FoundDrive(meant.place(), meant.facts(), meant.lockKey(), false, null, "1A2B-0002"))) {
            rooms.at.put(two, there);
            Path run = ordered(new FoundDrive(meant.place(), meant.facts(), meant.lockKey(), false, null, "1A2B-0001"));
            Typed typed = begin(run);
            assertThat(typed.code()).as(typed.err()).isEqualTo(3);
            assertThat(typed.err())
                    .contains("is not at \"" + two, "that is S-2, Barley Wagon, 64 GB", "there now: Barley");
            assertThat(two).isEmptyDirectory();
            assertThat(state().outcome()).isEmpty();
            assertThat(state().sentence()).contains("nothing was written", "serial number B4RN-0002");
            assertThat(state().todo()).contains("plug in the drive that was meant");
        }
    }

    @Test
    void aRunThatWaitedIsNotMadeWhereNothingIsMountedAnyMore() throws IOException {
        FoundDrive meant = TestRooms.roomy(two, "B4RN-0002");
        Path run = ordered(meant);
        rooms.at.put(two, TestRooms.stick("/elsewhere", "Host", "Disk"));
        assertThat(begin(run).err()).contains("no drive is mounted there now");
        Path again = ordered(meant);
        Files.delete(two);
        assertThat(begin(again).err()).contains("no drive is mounted there now");
    }

    @Test
    void aRunOfTheDriveThatWasMeantAndOneOfAnEarlierVersionAreMade() throws IOException {
        Path run = ordered(TestRooms.roomy(two, "B4RN-0002"));
        assertThat(begin(run).code()).isIn(0, 4);
        Path old = ordered(TestRooms.roomy(two, "B4RN-0003"));
        ObjectMapper json = new ObjectMapper();
        com.fasterxml.jackson.databind.node.ObjectNode order = (com.fasterxml.jackson.databind.node.ObjectNode)
                json.readTree(old.resolve("order.json").toFile());
        order.remove(List.of("meant", "remarks"));
        json.writeValue(old.resolve("order.json").toFile(), order);
        Typed typed =
                type("qualify TWO --session trio-8 --plan line-check --take 1s --idle 0s --length 1min --no-roster"
                        + " --out " + folder.resolve("host/old") + " --live " + old);
        assertThat(typed.code()).as(typed.err()).isIn(0, 4);
    }
}
