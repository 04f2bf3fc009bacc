package tracksoak.bench.command.drives;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.drive.find.FoundDrive;

class DrivesCommandTest {

    @TempDir
    Path folder;

    private TestRooms rooms(FoundDrive... drives) {
        return new TestRooms(folder.resolve("host"), List.of(drives));
    }

    @Test
    void listsWhatIsPluggedIn() {
        Typed typed =
                Typed.run(rooms(TestRooms.stick("/media/show", "Barley", "Wagon"), TestRooms.unmounted()), "drives");
        assertThat(typed.code()).isZero();
        assertThat(typed.err()).isEmpty();
        assertThat(typed.out().lines()).hasSize(3);
        assertThat(typed.out().lines().toList().get(1))
                .contains("/media/show", "Barley Wagon", "64 GB", "58 GB", "exFAT", "USB", "480 Mbit/s");
        assertThat(typed.out().lines().toList().get(2)).startsWith("- ").contains("not mounted");
    }

    @Test
    void whereSeveralDrivesAreOneThatIsSaid() {
        FoundDrive stick = TestRooms.stick("/data", "Barley", "Wagon");
        FoundDrive spread = new FoundDrive(FoundDrive.Place.SPREAD, stick.facts(), "mount-0-38", false, null);
        assertThat(Typed.run(rooms(spread), "drives").out()).contains("several drives at once");
    }

    @Test
    void jsonIsOneDocumentWithNullForUnknown() throws Exception {
        Typed typed = Typed.run(
                rooms(TestRooms.stick("/media/show", "Barley", "Wagon"), TestRooms.unmounted()), "drives", "--json");
        JsonNode document = new ObjectMapper().readTree(typed.out());
        assertThat(document.get("schema").textValue()).isEqualTo("tracksoak/drives/1");
        assertThat(document.get("drives")).hasSize(2);
        assertThat(document.at("/drives/0/sizeBytes").longValue()).isEqualTo(64_000_000_000L);
        assertThat(document.at("/drives/1/mount").isNull()).isTrue();
    }

    @Test
    void whatADriveCallsItselfCannotSteerTheTerminal() {
        Typed typed = Typed.run(
                rooms(TestRooms.stick("/media/\033[2Jshow", "\033]0;owned\007", "\u202Eevil\nPASS  trust it")),
                "drives");
        assertThat(typed.out()).doesNotContain("\033").doesNotContain("\007").doesNotContain("\u202E");
        assertThat(typed.out().lines()).hasSize(2);
    }

    @Test
    void anEmptyListSaysWhatToDo() {
        Typed typed = Typed.run(rooms(), "drives");
        assertThat(typed.code()).isZero();
        assertThat(typed.out()).isEmpty();
        assertThat(typed.err()).contains("is it plugged in");
    }

    @Test
    void oneDriveIsShownInFull() {
        Typed typed = Typed.run(rooms(TestRooms.stick("/media/show", "Barley", "Wagon")), "drives", folder.toString());
        assertThat(typed.code()).isZero();
        assertThat(typed.out())
                .contains("Barley Wagon", "serial", "480 Mbit/s", "check by hand: Is it on a fast port?");
    }

    @Test
    void aPathThatIsNotThereIsTheUsersMistake() {
        Typed typed = Typed.run(rooms(), "drives", folder.resolve("nowhere").toString());
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("nowhere").contains("→");
    }
}
