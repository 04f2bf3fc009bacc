package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Download;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.record.ClimbSketch;
import tracksoak.report.record.DrillSketch;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.ClimbJson;
import tracksoak.report.record.json.DrillJson;
import tracksoak.report.record.json.RecordJson;

/** The report as a person sees it: opened from disk in a real browser. */
@NeedsBrowser
class PageInBrowserTest {

    /** Pixels of each canvas that are not transparent: a blank chart has none. */
    private static final String DRAWN = """
            () => [...document.querySelectorAll('.plot canvas')].map(canvas => {
              const data = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
              let drawn = 0;
              for (let i = 3; i < data.length; i += 4) if (data[i] !== 0) drawn++;
              return drawn;
            })
            """;

    private final Windows windows;

    @TempDir
    Path folder;

    PageInBrowserTest(Windows windows) {
        this.windows = windows;
    }

    @AfterEach
    void leave() {
        windows.close();
        assertThat(windows.complaints())
                .as("errors on the console, and requests")
                .isEmpty();
    }

    private static Stream<RunRecord> records() {
        return Stream.of(
                Showcase.pass(),
                Showcase.fail(),
                Showcase.interrupted(),
                Showcase.misplaced(),
                Hostile.record(),
                Hostile.empty(),
                Hostile.gaps(),
                WholeShow.recorded(),
                WholeShow.mixedDown());
    }

    static Stream<Arguments> looks() {
        return records()
                .flatMap(record -> Stream.of(
                        Arguments.of(record, ColorScheme.LIGHT, 1100), Arguments.of(record, ColorScheme.DARK, 320)));
    }

    static Stream<Arguments> otherLooks() {
        return records()
                .flatMap(record -> Stream.of(
                        Arguments.of(record, ColorScheme.DARK, 1100), Arguments.of(record, ColorScheme.LIGHT, 360)));
    }

    /** Both widths and both schemes of every record in each build, crossed the other way at night. */
    @ParameterizedTest(name = "{1} at {2} px")
    @MethodSource("looks")
    void drawsEveryChartFitsTheWindowAndCanBeUsedByEveryone(RunRecord record, ColorScheme scheme, int width)
            throws IOException {
        drawsEveryChartAndFits(record, scheme, width);
    }

    @ParameterizedTest(name = "{1} at {2} px")
    @MethodSource("otherLooks")
    @Tag("nightly")
    void drawsEveryChartInEveryOtherLook(RunRecord record, ColorScheme scheme, int width) throws IOException {
        drawsEveryChartAndFits(record, scheme, width);
    }

    private void drawsEveryChartAndFits(RunRecord record, ColorScheme scheme, int width) throws IOException {
        Page page = show(record, scheme, width);
        List<?> drawn = (List<?>) page.evaluate(DRAWN);
        assertThat(drawn).hasSize(page.locator(".plot").count());
        assertThat(drawn).allSatisfy(pixels -> assertThat((Integer) pixels).isGreaterThan(1000));
        for (Locator plot : page.locator(".plot").all()) {
            assertThat(plot.getAttribute("role")).isEqualTo("img");
            assertThat(plot.getAttribute("aria-label")).isNotBlank();
        }
        fitsAndCanBeUsedByEveryone(page);
    }

    /** With all that is folded unfolded. */
    private static void fitsAndCanBeUsedByEveryone(Page page) throws IOException {
        page.evaluate("document.querySelectorAll('details').forEach(it => { it.open = true; })");
        assertThat(Windows.sideways(page)).as("px to scroll sideways").isZero();
        assertThat(Axe.violations(page)).isEmpty();
    }

    @Test
    void aClimbsSheetDrawsItsChartAndCanBeUsedByEveryone() throws IOException {
        Path file = folder.resolve("climb.html");
        for (int width : new int[] {1100, 320}) {
            ClimbPage.save(file, ClimbSketch.found());
            Page page = open(file, width == 320 ? ColorScheme.DARK : ColorScheme.LIGHT, width);
            assertThat((List<?>) page.evaluate(DRAWN))
                    .hasSize(1)
                    .allSatisfy(pixels -> assertThat((Integer) pixels).isGreaterThan(1000));
            fitsAndCanBeUsedByEveryone(page);
            Download download =
                    page.waitForDownload(() -> page.locator("#download").click());
            assertThat(Files.readString(download.path())).isEqualTo(ClimbJson.write(ClimbSketch.found()));
        }
    }

    @Test
    void aDrillsSheetFitsEveryWindowAndCanBeUsedByEveryone() throws IOException {
        Path file = folder.resolve("drill.html");
        for (int width : new int[] {1100, 320}) {
            DrillPage.save(file, DrillSketch.twoTracks().record());
            Page page = open(file, width == 320 ? ColorScheme.DARK : ColorScheme.LIGHT, width);
            fitsAndCanBeUsedByEveryone(page);
            Download download =
                    page.waitForDownload(() -> page.locator("#download").click());
            assertThat(Files.readAllBytes(download.path()))
                    .isEqualTo(DrillJson.bytes(DrillSketch.twoTracks().record()));
        }
    }

    @Test
    void wouldNoticeAViolation() throws IOException {
        Page page = show(Showcase.pass(), ColorScheme.LIGHT, 1100);
        page.evaluate("document.documentElement.removeAttribute('lang')");
        page.evaluate("document.querySelector('.sentence').style.color = '#ddd'");
        assertThat(Axe.violations(page)).contains("html-has-lang", "color-contrast");
    }

    @Test
    void runsNothingThatARecordBringsAlong() throws IOException {
        Page page = show(Hostile.record(), ColorScheme.LIGHT, 1100);
        assertThat(page.locator("img").count()).isZero();
        assertThat(page.locator("script").count()).isEqualTo(3);
        assertThat(page.title()).startsWith("NO VERDICT: </script></textarea></title><img src=x");
    }

    @Test
    void givesTheRecordBackByteForByteByKeyboardAlone() throws IOException {
        RunRecord record = Showcase.fail();
        Page page = show(record, ColorScheme.LIGHT, 1100);
        String focused = "";
        for (int step = 0; step < 60 && !focused.equals("download"); step++) {
            page.keyboard().press("Tab");
            focused = (String) page.evaluate("document.activeElement.id");
        }
        assertThat(focused).as("reached with the Tab key").isEqualTo("download");
        Download download = page.waitForDownload(() -> page.keyboard().press("Enter"));
        assertThat(download.suggestedFilename()).isEqualTo("record-" + record.id() + ".json");
        assertThat(Files.readAllBytes(download.path())).isEqualTo(RecordJson.bytes(record));
    }

    @Test
    void givesAHostileRecordBackByteForByte() throws IOException {
        Page page = show(Hostile.record(), ColorScheme.LIGHT, 360);
        Download download = page.waitForDownload(() -> page.locator("#download").click());
        assertThat(Files.readAllBytes(download.path())).isEqualTo(RecordJson.bytes(Hostile.record()));
    }

    static Stream<Arguments> sheets() {
        return Stream.of(
                Arguments.of("report", ReportPage.render(Showcase.fail()), RecordJson.write(Showcase.fail())),
                Arguments.of(
                        "whole show", ReportPage.render(WholeShow.recorded()), RecordJson.write(WholeShow.recorded())),
                Arguments.of(
                        "mixdown", ReportPage.render(WholeShow.mixedDown()), RecordJson.write(WholeShow.mixedDown())),
                Arguments.of(
                        "history",
                        ReportPage.render(HistoryPageTest.latest(), HistoryPageTest.falling()),
                        RecordJson.write(HistoryPageTest.latest())),
                Arguments.of("climb", ClimbPage.render(ClimbSketch.found()), ClimbJson.write(ClimbSketch.found())));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("sheets")
    void printsOnPaperInInkEvenWhereTheScreenIsDark(String name, String sheet, String json) throws IOException {
        Path file = Files.writeString(folder.resolve("sheet.html"), sheet);
        Page page = open(file, ColorScheme.DARK, 1100);
        byte[] pdf = page.pdf(new Page.PdfOptions().setFormat("A4"));
        assertThat(new String(pdf, 0, 5, StandardCharsets.ISO_8859_1)).isEqualTo("%PDF-");
        assertThat(pdf).hasSizeGreaterThan(50_000);
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        page.evaluate("dispatchEvent(new Event('beforeprint'))");
        assertThat(page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--paper').trim()"))
                .isEqualTo("#fcfbf6");
        assertThat((List<?>) page.evaluate(DRAWN))
                .isNotEmpty()
                .allSatisfy(pixels -> assertThat((Integer) pixels).isGreaterThan(1000));
        assertThat(page.locator(".download").isVisible()).isFalse();
        page.evaluate("dispatchEvent(new Event('afterprint'))");
    }

    /** What a chart would show stands in its sentence and its table, on a phone as well. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("sheets")
    void isReadableWithoutScripts(String name, String sheet, String json) throws IOException {
        Path file = Files.writeString(folder.resolve("sheet.html"), sheet);
        Page page = windows.blank(Windows.look(ColorScheme.LIGHT, 360).setJavaScriptEnabled(false));
        page.navigate(file.toUri().toString());
        assertThat(page.locator(".plot").count()).isPositive();
        for (Locator plot : page.locator(".plot").all()) {
            assertThat(plot.innerText()).contains("table below");
        }
        for (Locator table : page.locator("details table").all()) {
            assertThat(table.locator("tbody tr").count()).isPositive();
        }
        page.locator("#record summary").click();
        assertThat(page.locator("#record-json").inputValue()).isEqualTo(json);
        assertThat(page.locator("#download").isVisible()).isFalse();
    }

    /** The curves of a drive's history, drawn by date, on a wide window and on a phone. */
    @ParameterizedTest(name = "at {0} px")
    @ValueSource(ints = {1100, 360})
    void drawsTheHistoryOfADrive(int width) throws IOException {
        Page page = show(HistoryPageTest.latest(), HistoryPageTest.falling(), ColorScheme.LIGHT, width);
        assertThat(page.locator("#history .plot").count()).isEqualTo(2);
        assertThat((List<?>) page.evaluate(DRAWN))
                .hasSize(page.locator(".plot").count())
                .allSatisfy(pixels -> assertThat((Integer) pixels).isGreaterThan(1000));
        fitsAndCanBeUsedByEveryone(page);
        String shots = System.getProperty("page.shots");
        if (shots != null) {
            page.locator("#history")
                    .screenshot(new Locator.ScreenshotOptions()
                            .setPath(Path.of(shots).resolve("history-" + width + ".png")));
        }
    }

    @Test
    void opensARunOfTwelveHours() throws IOException {
        Page page = show(Showcase.twelveHours(), ColorScheme.LIGHT, 1100);
        assertThat((List<?>) page.evaluate(DRAWN))
                .isNotEmpty()
                .allSatisfy(pixels -> assertThat((Integer) pixels).isGreaterThan(1000));
    }

    private Page show(RunRecord record, ColorScheme scheme, int width) throws IOException {
        return show(record, null, scheme, width);
    }

    private Page show(RunRecord record, @Nullable DriveHistory history, ColorScheme scheme, int width)
            throws IOException {
        Path file = folder.resolve("report.html");
        ReportPage.save(file, record, history);
        return open(file, scheme, width);
    }

    private Page open(Path file, ColorScheme scheme, int width) {
        String address = file.toUri().toString();
        return windows.open(
                address, Windows.look(scheme, width), asked -> asked.equals(address) || asked.startsWith("blob:"));
    }
}
