package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.tray.LiveRun;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunShelf;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.page.bench.Link;
import tracksoak.report.page.bench.RunLine;
import tracksoak.report.page.bench.RunView;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;
import tracksoak.report.roster.web.page.view.Frame;

class RunLinesTest {

    private static final Path RECORD = Path.of("../report/src/test/resources/records/version-3-sound-check-pass.json");
    private static final Path NO_VERDICT = Path.of("../report/src/test/resources/records/version-3-every-part.json");

    @TempDir
    Path folder;

    private long laterMs;

    private RunShelf shelf() {
        return new RunShelf(folder, () -> SystemClocks.EPOCH.epochMillis() + laterMs);
    }

    private RunOrder order() {
        return new RunOrders(new TestRooms(folder, List.of()), SystemClocks.EPOCH)
                .simulated("steady-stick", "", List.of(), "trio-8", "line-check", "");
    }

    private Sheet sheet(RunOrder order) {
        return shelf().byId(order.id()).orElseThrow();
    }

    private static RunView view(Sheet sheet) {
        return RunLines.view(sheet, new Frame("", "", true, "", "", Frame.Site.BENCH), "secret", "");
    }

    /** Its process never came to anything, or was killed after it had saved what it measured. */
    @Test
    void aRunThatWasCutShortLeadsToItsReportWhereThereIsOne() throws IOException {
        RunOrder order = order();
        shelf().put(order);
        laterMs = Duration.ofMinutes(2).toMillis();

        RunLine nothing = RunLines.line(sheet(order));
        assertThat(nothing.word()).isEqualTo("cut short");
        assertThat(nothing.about().full()).endsWith("Nothing had been measured yet.");
        assertThat(nothing.report()).isEmpty();
        assertThat(view(sheet(order)).links()).extracting(Link::text).doesNotContain("Read the report");

        Files.createDirectories(Path.of(order.folder()));
        Files.copy(RECORD, Path.of(order.folder(), "record.json"));

        RunLine some = RunLines.line(sheet(order));
        assertThat(some.about().full()).endsWith("Its report says what it had measured by then.");
        assertThat(some.report()).isEqualTo("/bench/runs/" + order.id() + "/report");
        assertThat(view(sheet(order)).links()).extracting(Link::text).contains("Read the report");
    }

    @Test
    void aSimulatedDriveTellsNoTimeThatNobodyWaits() {
        RunOrder order = order();
        LiveRun live = live(order);
        live.progress(new Progress(PhaseKind.TAKE, 1, 3, 5, 16_000, 7_000, 8, 8, 1, 1, 2_000, 12, 0, 1_000_000, 1, 0));
        live.works(() -> "");

        RunView view = view(sheet(order));
        assertThat(view.sentence().full()).contains("hours pass in seconds").doesNotContain("left");
        assertThat(String.valueOf(view.figures()))
                .contains("hours pass in seconds")
                .doesNotContain("about 4 h");
    }

    /** The advice is to put right what is listed below. */
    @Test
    void aRunWithoutAVerdictListsWhatIsToBePutRight() {
        RunOrder order = order();
        LiveRun live = live(order);
        RunRecord record = RecordFile.load(NO_VERDICT);
        live.note("something else");
        live.over(record, "Put right what is listed below.");
        live.ends();

        List<String> reasons = Objects.requireNonNull(record.verdict()).reasons().stream()
                .map(reason -> DriveLines.sentence(reason).full())
                .toList();
        assertThat(reasons).isNotEmpty();
        assertThat(view(sheet(order)).notes())
                .extracting(Shown::full)
                .startsWith(reasons.toArray(new String[0]))
                .endsWith("Something else.");
    }

    private LiveRun live(RunOrder order) {
        return new LiveRun(shelf().put(order), new Nobody(), new OffSwitch(), SystemClocks.EPOCH, SystemClocks.NANO);
    }
}
