package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.drive.folder.RunMarker;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.profiles.base.SystemClocks;

/** What a test that was cut short left is deleted from the page, and nothing else is. */
class StartPagesTest {

    private static final String ID = "01a22e7c-d9bf-7ba4-8d83-43dd0c07398f";

    @TempDir
    Path computer;

    @TempDir
    Path stick;

    private ServedBench bench;
    private Path left;

    @BeforeEach
    void open() throws IOException {
        FoundDrive drive = TestRooms.stick(stick.toString(), "Lantern", "Wagon");
        TestRooms rooms = new TestRooms(computer, List.of(drive));
        rooms.at.put(stick, drive);
        bench = new ServedBench(computer, rooms);
        bench.enter();
        left = Files.createDirectory(stick.resolve(RunMarker.folderName(ID)));
        Files.writeString(
                left.resolve(RunMarker.NAME), new RunMarker(ID, "2026-11-30T19:30:00Z", 1, 1, "record.json").text());
        Files.write(left.resolve("take-001.soak"), new byte[5_000_000]);
        Files.writeString(stick.resolve("act two.wav"), "the only copy");
    }

    @AfterEach
    void close() {
        bench.close();
        assertThat(bench.failures).isEmpty();
    }

    private HttpResponse<String> chosen() {
        return bench.get("/bench/new?session=trio-8&plan=line-check&tag=W-1&drive=" + key());
    }

    private String key() {
        return bench.get("/bench/new").body().replaceFirst("(?s).*<option value=\"([0-9a-f]{16})\".*", "$1");
    }

    private Map<String, String> form(String drive) {
        Map<String, String> form = new HashMap<>();
        form.put("secret", bench.secret());
        form.put("drive", drive);
        form.put("session", "trio-8");
        form.put("plan", "line-check");
        form.put("tag", "W&1");
        return form;
    }

    @Test
    void whatWasLeftIsShownAndDeleted() {
        assertThat(chosen().body())
                .contains(left.toString(), " MB, of the test of 2026-11-30 19:30 UTC", "Delete what they left")
                .doesNotContain("tracksoak clear");

        HttpResponse<String> deleted = bench.post("/bench/clear", form(key()), "Origin", bench.origin());

        assertThat(deleted.statusCode()).isEqualTo(303);
        assertThat(deleted.headers().firstValue("Location"))
                .hasValue("/bench/new?drive=" + key() + "&session=trio-8&plan=line-check&tag=W%261");
        assertThat(left).doesNotExist();
        assertThat(stick.resolve("act two.wav")).exists();
        assertThat(chosen().body()).doesNotContain("Delete what they left");
    }

    @Test
    void aFolderThatHoldsAnythingElseStaysAndSaysSo() throws IOException {
        Path other = Files.writeString(left.resolve("act one.wav"), "put here by mistake");

        HttpResponse<String> refused = bench.post("/bench/clear", form(key()), "Origin", bench.origin());

        assertThat(refused.body()).contains("act one.wav", "delete it by hand", "Delete what they left");
        assertThat(other).exists();
    }

    /** As a second click sends it. */
    @Test
    void aFormSentTwiceBeginsOneTest() {
        RunOrder going = new RunOrders(new TestRooms(computer, List.of()), SystemClocks.EPOCH)
                .simulated(
                        "steady-ssd",
                        "",
                        List.of(
                                "qualify",
                                "--simulated=steady-ssd",
                                "--session=trio-8",
                                "--plan=line-check",
                                "--roster=" + computer.resolve("roster.db"),
                                "--no-roster"),
                        "trio-8",
                        "line-check",
                        "");
        bench.shelf.put(going);
        Map<String, String> form = form("simulated-steady-ssd");
        form.put("tag", "");

        HttpResponse<String> answer = bench.post("/bench/runs", form, "Origin", bench.origin());

        assertThat(answer.headers().firstValue("Location")).hasValue("/bench/runs/" + going.id());
        assertThat(bench.shelf.all()).hasSize(1);
    }

    @Test
    void noOtherPageAndNoOtherPlaceCanBeNamed() {
        Map<String, String> withoutSecret = form(key());
        withoutSecret.remove("secret");

        assertThat(bench.post("/bench/clear", withoutSecret, "Origin", bench.origin())
                        .statusCode())
                .isEqualTo(400);
        assertThat(bench.post("/bench/clear", form(stick.toString()), "Origin", bench.origin())
                        .statusCode())
                .isEqualTo(400);
        assertThat(left).exists();
    }
}
