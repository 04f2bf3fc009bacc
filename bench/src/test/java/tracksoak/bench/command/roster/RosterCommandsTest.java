package tracksoak.bench.command.roster;

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
import tracksoak.bench.job.Rooms;

/** The roster's commands, typed in by two people of an invented touring theatre on two laptops. */
class RosterCommandsTest {

    private static final String FULL = "qualify --simulated %s --session trio-8 --plan sound-check";

    @TempDir
    Path folder;

    private Path drive;
    private Rooms rooms;
    private Rooms others;

    @BeforeEach
    void furnish() throws IOException {
        drive = Files.createDirectory(folder.resolve("drive"));
        rooms = laptop("host");
        others = laptop("other");
    }

    private Rooms laptop(String name) throws IOException {
        return new TestRooms(Files.createDirectory(folder.resolve(name)), List.of(TestRooms.roomy(drive, "0000")));
    }

    private Typed type(Rooms where, String line) {
        return Typed.run(
                where,
                Stream.of(line.split(" "))
                        .map(word -> word.replace("HERE", folder.toString()))
                        .toArray(String[]::new));
    }

    private Typed good(Rooms where, String line) {
        Typed typed = type(where, line);
        assertThat(typed.code()).as(typed.out() + typed.err()).isZero();
        return typed;
    }

    private JsonNode json(Rooms where, String line) throws IOException {
        return new ObjectMapper().readTree(good(where, line + " --json").out());
    }

    @Test
    void aDriveGoesFromItsRunToTheOtherLaptop() throws IOException {
        Typed run = good(rooms, FULL.formatted("steady-stick") + " --enter-simulated --tag S-014");
        assertThat(run.err()).contains("roster: entered for S-014");
        assertThat(good(rooms, "roster list").out().lines())
                .as("a usual terminal has 80 columns")
                .allSatisfy(line -> assertThat(line).hasSizeLessThanOrEqualTo(80));
        JsonNode tonight = json(rooms, "roster list --tonight trio-8");
        assertThat(tonight.get("schema").textValue()).isEqualTo("tracksoak/roster/1");
        assertThat(tonight.at("/drives/0/tags/0").textValue()).isEqualTo("S-014");
        assertThat(good(rooms, "roster list").out()).contains("S-014", "trio-8", "cleared", "15 of 180");

        good(rooms, "roster note S-014 rattles a little");
        good(rooms, "roster withdraw S-014 fell off the truck");
        JsonNode list = json(rooms, "roster list");
        assertThat(list.at("/counts/withdrawn").intValue()).isEqualTo(1);
        assertThat(list.at("/drives/0/why").textValue()).contains("fell off the truck");
        assertThat(json(rooms, "roster list --tonight trio-8").get("drives")).isEmpty();
        assertThat(json(rooms, "roster list --standing trusted,cleared").get("drives"))
                .isEmpty();
        JsonNode shown = json(rooms, "roster show S-014");
        assertThat(shown.get("history").findValuesAsText("kind"))
                .containsExactly("drive-withdrawn", "note-written", "record-entered");
        assertThat(good(rooms, "roster show S-014").out()).contains("rattles a little", "PASS, sound-check for trio-8");

        good(rooms, "roster export HERE/carried.roster");
        assertThat(type(rooms, "roster export HERE/carried.roster").code()).isEqualTo(2);
        Typed cautious = good(others, "roster import HERE/carried.roster");
        assertThat(cautious.err()).contains("keys left out", "by voice");
        good(others, "roster import HERE/carried.roster --new-keys");
        assertThat(json(others, "roster import HERE/carried.roster --new-keys")
                        .get("taken")
                        .intValue())
                .isZero();
        assertThat(json(others, "roster show S-014")).isEqualTo(json(rooms, "roster show S-014"));
        assertThat(good(others, "roster list --csv").out())
                .isEqualTo(good(rooms, "roster list --csv").out())
                .startsWith("tag,drive,")
                .contains("S-014", "\r\n");

        good(others, "roster restore S-014 came through a new run");
        assertThat(json(others, "roster list").at("/drives/0/standing").textValue())
                .isEqualTo("cleared");
        assertThat(json(others, "roster list --session trio-8 --tag s-014").get("drives"))
                .hasSize(1);
        assertThat(json(others, "roster list --tag nowhere").get("drives")).isEmpty();
    }

    @Test
    void oneTagOnTwoDrivesIsSaidUntilAPersonSettlesIt() throws IOException {
        String check =
                "qualify --simulated %s --session trio-8 --length 1h --plan line-check --take 10s --enter-simulated"
                        + " --tag S-002";
        good(rooms, check.formatted("steady-stick"));
        assertThat(type(rooms, check.formatted("cliff-ssd")).err())
                .as("said by the run that brings it about")
                .containsSubsequence(
                        "roster: entered for S-002",
                        "S-002",
                        "Until then none of them is offered for tonight",
                        "tracksoak roster settle S-002 d-");
        JsonNode list = json(rooms, "roster list");
        assertThat(list.get("drives")).hasSize(2);
        assertThat(list.get("conflicts")).hasSize(1);
        String id = list.at("/drives/1/drive").textValue();
        String other = list.at("/drives/0/drive").textValue();
        String[] commands = {
            "tracksoak roster settle S-002 " + id + " WHY", "tracksoak roster settle S-002 " + other + " WHY"
        };
        assertThat(good(rooms, "roster list").err()).contains(commands).doesNotContain("retag");
        assertThat(good(rooms, "roster show " + id).out()).contains(commands);
        assertThat(type(rooms, "roster show S-002").err())
                .contains("2 drives are called", id, other, "tracksoak roster settle S-002 ID WHY")
                .doesNotContain("another tag");
        assertThat(good(rooms, "roster settle S-002 " + id + " read it on the label")
                        .out())
                .contains("settled: S-002 belongs to", "(" + id + "): read it on the label")
                .containsSubsequence("S-002 no longer on", "(" + other + "), which has no tag now");
        JsonNode after = json(rooms, "roster list");
        assertThat(after.get("conflicts")).isEmpty();
        assertThat(json(rooms, "roster show S-002").get("drive").textValue()).isEqualTo(id);
    }

    /** A tag read wrongly on two drives, then one of them tagged anew: whatever command is named must settle all of it. */
    @ParameterizedTest
    @ValueSource(ints = {0, 1})
    void everyCommandThatIsNamedSettlesIt(int way) throws IOException {
        String check =
                "qualify --simulated %s --session trio-8 --length 1h --plan line-check --take 10s --enter-simulated"
                        + " --tag T-2";
        good(rooms, check.formatted("steady-stick"));
        good(rooms, check.formatted("cliff-ssd"));
        String id = json(rooms, "roster list").at("/drives/0/drive").textValue();
        assertThat(good(rooms, "roster tag " + id + " T-5").err()).contains("goes under the tags T-2 and T-5: ");
        Typed third = good(rooms, "roster tag " + id + " T-6");
        assertThat(third.err()).contains("goes under the tags T-2, T-5 and T-6: ");
        List<String> commands = third.err()
                .lines()
                .map(String::strip)
                .filter(line -> line.startsWith("tracksoak roster settle T-"))
                .toList();
        assertThat(commands).hasSize(3);
        Typed settled = good(rooms, commands.get(way * 2).replace("tracksoak ", ""));
        assertThat(settled.out())
                .as("what the drive itself lost, too")
                .contains("  " + (way == 0 ? "T-5 and T-6" : "T-2 and T-5") + " no longer on it");
        assertThat(json(rooms, "roster list").get("conflicts")).isEmpty();
    }

    /** A run whose drive has no serial stands alone until it is tagged; two tags on it make two drives of it. */
    @ParameterizedTest
    @ValueSource(strings = {"B-1", "its id"})
    void aRecordUnderTwoTagsIsNotSaidToHaveLostTheTagItKeeps(String called) throws IOException {
        String run = "qualify HERE/drive --session trio-8 --plan line-check --take 2s --idle 0s --reserve 1MB"
                + " --allow-system-drive --out HERE/host/records/two";
        assertThat(type(rooms, run).code()).isIn(0, 4);
        String id = json(rooms, "roster list").at("/drives/0/drive").textValue();
        good(rooms, "roster tag " + id + " A-1");
        good(rooms, "roster tag " + id + " B-1");
        Typed settled = good(rooms, "roster settle B-1 " + (called.equals("B-1") ? called : id) + " because");
        assertThat(settled.out())
                .containsSubsequence("settled: B-1 belongs to", "  A-1 no longer on ", "(" + id + "), which keeps B-1");
    }

    /** Whoever puts a second tag on a drive takes it from tonight's list, and must hear so, with what to type. */
    @Test
    void aSecondTagIsSaidToBeAConflictWithTheCommandThatSettlesIt() throws IOException {
        String roster = " --roster HERE/crew$1.db";
        good(rooms, FULL.formatted("steady-stick") + " --enter-simulated --tag S-015" + roster);
        String id = json(rooms, "roster list" + roster).at("/drives/0/drive").textValue();
        Typed again = good(rooms, "roster tag S-015 S-015" + roster);
        assertThat(again.err()).isEmpty();
        Typed tag = good(rooms, "roster tag S-015 S-016" + roster);
        assertThat(tag.out()).contains("the drive is now tagged S-016");
        assertThat(tag.err())
                .contains(
                        "goes under the tags S-015 and S-016",
                        "Until then the drive is not offered for tonight",
                        "tracksoak roster settle S-016 " + id + " WHY --roster '",
                        "/crew$1.db'");
        assertThat(tag.err()).contains("tracksoak roster settle S-015 " + id + " WHY --roster '");
        assertThat(good(rooms, "roster show S-015" + roster).out()).doesNotContain("taken back");
        JsonNode settled = json(rooms, "roster settle S-016 S-015 new label" + roster);
        assertThat(settled.get("keeper").textValue()).isEqualTo(id);
        assertThat(json(rooms, "roster list --tonight trio-8" + roster).get("drives"))
                .hasSize(1);
        assertThat(good(rooms, "roster show S-016" + roster).out().lines())
                .as("the drive is cleared by this record: its tag alone is gone")
                .anyMatch(line -> line.contains("PASS, sound-check") && line.contains("its tag S-015 taken back"));
        Typed typo = type(rooms, "roster settle S-0l6 S-016 new label" + roster);
        assertThat(typo.code()).isEqualTo(2);
        assertThat(typo.err()).contains("did you mean S-016?", "roster tag " + id + " S-0L6");
    }

    @Test
    void drivesThatWaitForTheirTagAreNotSaidToBeMissing() throws IOException {
        assertThat(good(rooms, "roster list --tonight trio-8").err()).contains("the roster holds no drive yet");
        good(rooms, FULL.formatted("steady-ssd") + " --enter-simulated --tag A1");
        good(rooms, FULL.formatted("steady-stick") + " --enter-simulated --tag A1");
        Typed tonight = good(rooms, "roster list --tonight trio-8");
        assertThat(tonight.err())
                .contains("2 drives, none offered until the tag is settled", "A1 is on 2 different drives")
                .doesNotContain("holds no drive", "fits");
        assertThat(good(rooms, "roster list --tonight trio-8 --tag nowhere").err())
                .contains("no drive on the roster fits what you asked for")
                .doesNotContain("offered");
        assertThat(good(rooms, "roster list --standing withdrawn").err())
                .contains("no drive on the roster fits what you asked for");
    }

    @Test
    void simulatedRunsAndRunsLeftOutAreNotEntered() throws IOException {
        String check = "qualify --simulated steady-stick --session trio-8 --length 1h --plan line-check --take 10s";
        good(rooms, check);
        good(rooms, check + " --enter-simulated --no-roster");
        assertThat(folder.resolve("host/roster.db")).doesNotExist();
        assertThat(json(rooms, "roster list").get("drives")).isEmpty();
    }

    /** A real run on whatever this test's folder lies on: two seconds of eight tracks. */
    @Test
    void aRealRunIsEnteredAndAsksForATagWhereTheSerialIsOfNoUse() throws IOException {
        String run = "qualify HERE/drive --session trio-8 --plan line-check --take 2s --idle 0s --reserve 1MB"
                + " --allow-system-drive --out HERE/host/records/";
        Typed typed = type(rooms, run + "one");
        assertThat(typed.code()).as(typed.err()).isIn(0, 4);
        assertThat(typed.err()).contains("no usable serial number", "tracksoak roster tag");
        String id = json(rooms, "roster list").at("/drives/0/drive").textValue();
        good(rooms, "roster tag " + id + " s-007");
        assertThat(json(rooms, "roster show S-007").get("records").intValue()).isEqualTo(1);
    }

    @Test
    void aRosterThatCannotBeOpenedSpoilsNoRun() throws IOException {
        Path broken =
                Files.writeString(folder.resolve("broken.db"), "this is no database, but a list of props ".repeat(99));
        Typed typed = good(
                rooms,
                "qualify --simulated steady-stick --session trio-8 --length 1h --plan line-check --take 10s"
                        + " --enter-simulated --roster " + broken);
        assertThat(typed.out()).startsWith("PASS");
        assertThat(typed.err().lines().filter(line -> line.contains("roster: not entered")))
                .hasSize(1);
        Typed list = type(rooms, "roster list --roster " + broken);
        assertThat(list.code()).isEqualTo(2);
        assertThat(list.err()).contains("broken.db is no roster", "→").doesNotContain("\tat ", "roster rescue");
        byte[] before = Files.readAllBytes(broken);
        Typed rescue = type(rooms, "roster rescue --roster " + broken);
        assertThat(rescue.code()).isEqualTo(2);
        assertThat(rescue.err()).contains("broken.db is no roster");
        assertThat(Files.readAllBytes(broken)).isEqualTo(before);
    }

    @Test
    void keysAreListedMadeKnownAndRevoked() throws IOException {
        JsonNode theirs = json(others, "roster keys");
        good(rooms, "roster keys --name Wren --add " + theirs.get("ownKey").textValue());
        JsonNode keys = json(
                rooms, "roster keys --why lost --revoke " + theirs.get("own").textValue());
        assertThat(keys.findValuesAsText("revokedWhy")).contains("lost");
        assertThat(good(rooms, "roster keys").out()).contains("Wren", "revoked", "Yours: ");
        Typed garbage = type(rooms, "roster keys --add short --name Wren");
        assertThat(garbage.code()).isEqualTo(2);
        assertThat(garbage.err()).contains("\"short\" is no 32 bytes", "→ copy it again");
        assertThat(type(rooms, "roster keys --name Wren").err()).contains("--name goes with --add");
        assertThat(type(rooms, "roster keys --why lost").err()).contains("--why goes with");
        assertThat(type(rooms, "roster keys --revoke abcdef").code()).isEqualTo(2);
    }

    /** What a person typed is neither damaged nor edited: it is too long. */
    @Test
    void whatIsTypedTooLongIsToBeShortened() throws IOException {
        good(rooms, FULL.formatted("steady-stick") + " --enter-simulated --tag S-014");
        String key = json(others, "roster keys").get("ownKey").textValue();
        String own = json(rooms, "roster keys").get("own").textValue();
        String longest = "a".repeat(1000);
        good(rooms, "roster note S-014 " + longest);
        good(rooms, "roster withdraw S-014 loose");
        good(rooms, "roster tag S-014 S-114");
        for (String act : List.of(
                "note S-014 ",
                "withdraw S-014 ",
                "restore S-014 ",
                "settle S-014 S-014 ",
                "tag S-014 S-015 ",
                "keys --revoke " + own + " --why ",
                "keys --name Wren --add " + key + " --why ")) {
            Typed typed = type(rooms, "roster " + act + longest + "a");
            assertThat(typed.code()).as(act).isEqualTo(2);
            assertThat(typed.err())
                    .as(act)
                    .contains("1,001 characters", "at most 1,000", "→ shorten it")
                    .doesNotContain("damaged", "edited");
        }
        Typed note = Typed.run(rooms, "roster", "note", "S-114", " ");
        assertThat(note.code()).isEqualTo(2);
        assertThat(note.err())
                .contains("the note is empty", "→ write it after the drive")
                .doesNotContain("reason");
        Typed name = type(rooms, "roster keys --add " + key + " --name " + "w".repeat(61));
        assertThat(name.code()).isEqualTo(2);
        assertThat(name.err()).contains("has 61 characters, allowed are 1 to 60", "→ shorten it");
        Typed search = type(rooms, "roster list --tag " + "w".repeat(101));
        assertThat(search.code()).isEqualTo(2);
        assertThat(search.err()).contains("101 characters", "at most 100", "→ shorten it");
    }

    /** A variable that is not set must not lead to one's own roster. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "roster list --roster",
                "roster note S-014 rattles --roster",
                "roster keys --roster",
                "qualify --simulated steady-stick --session trio-8 --enter-simulated --roster"
            })
    void anEmptyNameOfARosterIsRefused(String act) {
        for (String empty : List.of("", " ")) {
            String[] words =
                    Stream.concat(Stream.of(act.split(" ")), Stream.of(empty)).toArray(String[]::new);
            Typed typed = Typed.run(rooms, words);
            assertThat(typed.code()).as(typed.out()).isEqualTo(2);
            assertThat(typed.err()).contains("--roster", "it is empty");
            assertThat(typed.out()).isEmpty();
        }
        assertThat(folder.resolve("host/roster.db")).doesNotExist();
    }

    /** The sum at the end says that something was changed; which event that is, only its own refusal says. */
    @Test
    void anEventChangedInAnExchangeFileIsNamed() throws IOException {
        good(rooms, FULL.formatted("steady-stick") + " --enter-simulated --tag S-014");
        good(rooms, "roster note S-014 rattles");
        good(rooms, "roster export HERE/good.roster");
        String text = Files.readString(folder.resolve("good.roster"));
        Files.writeString(folder.resolve("bad.roster"), text.replace("rattles", "is fine"));
        Typed typed = type(others, "roster import HERE/bad.roster --new-keys");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err())
                .contains(
                        "what is whole in it was taken: 2 new, 0 known already; refused: ",
                        "signature does not belong to it");
    }

    /** A mistyped name makes no roster that then looks empty. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "list",
                "list --tag S-014",
                "show S-014",
                "export HERE/lost.roster",
                "withdraw S-014 fell off the truck"
            })
    void aRosterThatIsNotThereIsSaidAndNotMade(String act) {
        Typed typed = type(rooms, "roster " + act + " --roster HERE/typo/rooster.db");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("there is no roster at", "rooster.db", "  → ");
        assertThat(folder.resolve("typo")).doesNotExist();
        assertThat(folder.resolve("lost.roster")).doesNotExist();
    }

    @Test
    void whatIsTypedWrongIsSaid() {
        assertThat(type(rooms, "roster").code()).isEqualTo(2);
        assertThat(type(rooms, "roster list --standing splendid").err()).contains("splendid", "trusted, cleared, due");
        assertThat(type(rooms, "roster list --standing trustd").err()).contains("did you mean trusted?");
        assertThat(type(rooms, "man qualfy").err()).contains("did you mean qualify?");
        assertThat(type(rooms, "roster list --csv --json").code()).isEqualTo(2);
        assertThat(type(rooms, "roster list --tonight trio-8 --standing due").code())
                .isEqualTo(2);
        assertThat(type(rooms, "roster show S-999").code()).isEqualTo(2);
        assertThat(type(rooms, "roster withdraw S-999").code()).isEqualTo(2);
        assertThat(type(rooms, "roster list --roster http://example.org/").code())
                .isEqualTo(2);
        assertThat(type(rooms, "roster list --roster jdbc:h2:mem").code()).isEqualTo(2);
        assertThat(type(rooms, "roster import HERE/nothing").code()).isEqualTo(2);
        assertThat(type(rooms, "qualify --simulated steady-stick --session trio-8 --seed abc")
                        .err())
                .contains("--seed: \"abc\" is not a whole number, or too large a one. Write it like 12")
                .doesNotContain("long");
        assertThat(type(rooms, "roster sync http://127.0.0.1:9/ --token-file HERE/nothing")
                        .err())
                .contains("nothing")
                .doesNotContain("Exception");
        assertThat(type(rooms, "roster import " + wrongFile()).code()).isEqualTo(2);
    }

    private Path wrongFile() {
        try {
            return Files.writeString(folder.resolve("wrong"), "{}\n");
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
