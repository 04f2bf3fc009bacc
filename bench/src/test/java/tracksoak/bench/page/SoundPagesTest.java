package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import nu.validator.client.EmbeddedValidator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.tray.LiveRun;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.PhaseKind;

/** HTML Living Standard, as checked by the Nu Html Checker. */
class SoundPagesTest {

    @TempDir
    Path folder;

    @Test
    void everyPageIsSoundHtml() throws Exception {
        TestRooms rooms = new TestRooms(
                folder, List.of(TestRooms.stick("/media/barn", "Lantern", "Wagon"), TestRooms.unmounted()));
        try (ServedBench bench = new ServedBench(folder, rooms)) {
            bench.enter();
            String tray = RunOrders.newId();
            RunOrder order = new RunOrders(rooms, SystemClocks.EPOCH)
                    .simulated("steady-ssd", tray, List.of(), "trio-8", "line-check", "");
            LiveRun live = new LiveRun(
                    bench.shelf.put(order), new Nobody(), new OffSwitch(), SystemClocks.EPOCH, SystemClocks.NANO);
            live.works(() -> "");
            live.note("something worth knowing");
            live.progress(
                    new Progress(PhaseKind.TAKE, 1, 3, 5, 60, 55, 8, 8, 12, 40, 2_000, 12, 0, 1_000_000, 1_150_000, 0));
            for (String page : List.of(
                    "/bench",
                    "/bench/new",
                    "/bench/new?drive=simulated-steady-ssd&session=trio-8&plan=line-check",
                    "/bench/tray",
                    "/bench/tray/" + tray,
                    "/bench/runs/" + order.id(),
                    "/bench/sessions",
                    "/bench/sessions/mixdown-32?saved=yes",
                    "/bench/help")) {
                sound(page, bench.get(page).body());
            }
            sound(
                    "a session with what is wrong",
                    bench.post(
                                    "/bench/sessions",
                                    Map.of("secret", bench.secret(), "name", "x y", "tracks0-count", "0"),
                                    "Origin",
                                    bench.origin())
                            .body());
            live.failed("no run is made there:\nit was pulled", "plug it in");
            live.ends();
            String over = bench.get("/bench/runs/" + order.id()).body();
            assertThat(over).contains("No run is made there: it was pulled.").doesNotContain("U+000A");
            sound("a run that is over", over);
            assertThat(bench.failures).isEmpty();
        }
    }

    private static void sound(String page, String html) throws Exception {
        EmbeddedValidator validator = new EmbeddedValidator();
        validator.setOutputFormat(EmbeddedValidator.OutputFormat.GNU);
        assertThat(validator.validate(new ByteArrayInputStream(html.getBytes(StandardCharsets.UTF_8))))
                .as(page)
                .isBlank();
    }
}
