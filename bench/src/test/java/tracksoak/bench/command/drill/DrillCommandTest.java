package tracksoak.bench.command.drill;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tracksoak.bench.command.AtOneDrive;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.json.RecordFormats;

class DrillCommandTest extends AtOneDrive {

    @Test
    void aSimulatedDrillEndsWithASentenceARecordAndASheet() throws IOException {
        Typed typed = type("drill --simulated flush-bound-stick --session trio-8 --after 33s --more --out OUT");
        assertThat(typed.code()).as(typed.err()).isZero();
        assertThat(typed.out()).startsWith("DRILL DONE  Pulling the plug cost").contains("Track 1: ");
        DrillRecord record = RecordFormats.DRILL.read(Files.readAllBytes(out.resolve("drill.json")));
        assertThat(record.state()).isEqualTo(DrillRecord.State.COMPLETE);
        assertThat(Files.readString(out.resolve("drill.html"))).startsWith("<!").contains("UNPLUG DRILL");
    }

    @Test
    void jsonIsTheRecordAndNothingElse() throws IOException {
        Typed typed = type("drill --simulated steady-stick --session trio-8 --json --out OUT");
        assertThat(typed.out()).isEqualTo(Files.readString(out.resolve("drill.json")));
    }

    @Test
    void nothingIsDoneBeforeSomebodyAgrees() {
        Typed typed = type("drill DRIVE --session trio-8 --out OUT");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err())
                .contains("Barley Wagon", drive.toString())
                .contains("may damage its file system")
                .contains("only copy of anything")
                .contains("add --yes");
        assertThat(drive).isEmptyDirectory();
        assertThat(out).doesNotExist();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            drill --session trio-8                                          | no drive was given
            drill DRIVE --simulated steady-stick --session trio-8           | exclude each other
            drill --simulated steady-stick --session trio-8 --after 0.5s    | --after is
            drill --simulated steady-stick --session trio-8 --wait 30h      | --wait is
            drill --simulated no-such --session trio-8                      | no simulated drive
            drill --simulated steady-stick                                  | no session was given
            drill --simulated steady-stick --session playback-16            | records nothing
            """)
    void aWrongCommandLineIsRefused(String line, String words) {
        Typed typed = type(line);
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains(words);
    }

    @Test
    void theDriveThisComputerRunsFromIsNeverDrilledAndNoOptionIsNamedThatWouldAllowIt() {
        FoundDrive system = new FoundDrive(
                FoundDrive.Place.DRIVE,
                DriveFacts.builder()
                        .system(true)
                        .mount(drive.toString())
                        .fileSystem("ext4")
                        .fileSystemBytes(63_900_000_000L)
                        .freeBytes(58_000_000_000L)
                        .build(),
                "system",
                false,
                null);
        rooms = new TestRooms(host, List.of(system));
        Typed typed = type("drill DRIVE --session trio-8 --yes --out OUT");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err())
                .contains("it is the system drive", "test another drive")
                .doesNotContain("allow");
        assertThat(drive).isEmptyDirectory();
    }

    @Test
    void anotherDrillsFilesAreNeverWrittenOver() throws IOException {
        Files.createDirectory(out);
        Files.writeString(out.resolve("drill.json"), "another");
        Typed typed = type("drill --simulated steady-stick --session trio-8 --out OUT");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("is there already");
        assertThat(out.resolve("drill.json")).hasContent("another");
    }

    /** A drive that fails by itself is no pull: exit code 3, as for all that could not run. */
    @Test
    void aDriveThatFailsByItselfEndsWithThree() {
        Typed typed = type("drill --simulated worn-out-card --session band-32 --after 10min --out OUT");
        assertThat(typed.code()).isEqualTo(3);
        assertThat(typed.out()).startsWith("NOT DONE  the drive was not pulled, but failed");
    }
}
