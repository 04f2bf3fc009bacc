package tracksoak.bench.command.demo;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.command.Typed;
import tracksoak.bench.job.Rooms;

@Isolated("some of its runs write to this computer's disk in real time")
class DemoCommandTest {

    @TempDir
    Path folder;

    private Path drive;
    private Path out;
    private Rooms rooms;

    @BeforeEach
    void furnish() throws IOException {
        drive = Files.createDirectory(folder.resolve("drive"));
        Path host = Files.createDirectory(folder.resolve("host"));
        out = host.resolve("out");
        rooms = new TestRooms(host, List.of(TestRooms.roomy(drive)));
    }

    /** The real half depends on how busy this machine is: a PASS or, honestly, no verdict. */
    @Test
    void showsARealRunAndAFailAndCleansUp() throws IOException {
        Typed typed =
                Typed.run(rooms, "demo", "--on", drive.toString(), "--take", "2s", "--out", out.toString(), "--json");
        assertThat(typed.code()).as(typed.err()).isZero();
        JsonNode document = new ObjectMapper().readTree(typed.out());
        assertThat(document.get("schema").textValue()).isEqualTo("tracksoak/demo/1");
        assertThat(document.at("/runs/0/outcome").textValue()).isIn("PASS", "NO_VERDICT");
        assertThat(document.at("/runs/1/outcome").textValue()).isEqualTo("FAIL");
        for (JsonNode run : document.get("runs")) {
            assertThat(Path.of(run.get("report").textValue())).exists();
            assertThat(Path.of(run.get("record").textValue())).exists();
        }
        assertThat(drive).isEmptyDirectory();
    }

    @Test
    void aTakeTooLongForADemoIsRefused() {
        Typed typed = Typed.run(rooms, "demo", "--take", "2h");
        assertThat(typed.code()).isEqualTo(2);
        assertThat(typed.err()).contains("--take is 2 h");
    }
}
