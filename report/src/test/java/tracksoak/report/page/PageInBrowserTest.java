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
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.ClimbSketch;
import tracksoak.report.record.DrillSketch;
import tracksoak.report.record.InspectionSketch;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFormats;
import tracksoak.report.record.json.RecordJson;

/** The report as a person sees it: opened from disk in a real browser. */
@NeedsBrowser
class PageInBrowserTest {

    /** Pixels of each canvas that are not transparent: a blank chart has none. */
    private static final String DRAWN = """
            () => [...document.querySelectorAll('.plot canvas')].map(canvas => {
              const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext('2d', { willReadFrequently: true });
              copy.drawImage(canvas, 0, 0);
              const data = copy.getImageData(0, 0, canvas.width, canvas.height).data;
              let drawn = 0;
              for (let i = 3; i < data.length; i += 4) if (data[i] !== 0) drawn++;
              return drawn;
            })
            """;

    /** Letters that stand on one line of a letterhead on paper. */
    private static final int ONE_LINE = 60;

    /** More than the letterhead, the number of the page, and what stands at its end. */
    private static final int LEAST_TEXTS = 10;

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

    /**
     * A sheet.
     *
     * @param name of its pictures
     * @param json the record it carries
     * @param pages how many it fills at most, printed with all that is folded left folded
     */
    @SuppressWarnings("ArrayRecordComponent") // never compared
    private record Sheet(String name, String html, byte[] json, int pages) {

        @Override
        public String toString() {
            return name;
        }
    }

    private static Sheet sheet(String name, RunRecord record, int pages) {
        return new Sheet(name, ReportPage.render(record), RecordJson.bytes(record), pages);
    }

    static Stream<Sheet> sheets() {
        return Stream.of(
                sheet("pass", Showcase.pass(), 2),
                sheet("fail", Showcase.fail(), 2),
                sheet("interrupted", Showcase.interrupted(), 2),
                sheet("misplaced", Showcase.misplaced(), 2),
                sheet("hostile", Hostile.record(), 4),
                sheet("empty", Hostile.empty(), 2),
                sheet("gaps", Hostile.gaps(), 2),
                sheet("whole show", WholeShow.recorded(), 2),
                sheet("mixdown", WholeShow.mixedDown(), 2),
                new Sheet(
                        "history",
                        ReportPage.render(HistoryPageTest.latest(), HistoryPageTest.falling()),
                        RecordJson.bytes(HistoryPageTest.latest()),
                        2),
                new Sheet(
                        "climb",
                        ClimbPage.render(ClimbSketch.found()),
                        RecordFormats.CLIMB.write(ClimbSketch.found()).getBytes(StandardCharsets.UTF_8),
                        2),
                new Sheet(
                        "drill",
                        DrillPage.render(DrillSketch.twoTracks().record()),
                        RecordFormats.DRILL.bytes(DrillSketch.twoTracks().record()),
                        2),
                new Sheet(
                        "inspection",
                        InspectPage.render(InspectionSketch.ofTwoTracks()),
                        RecordFormats.INSPECTION.bytes(InspectionSketch.ofTwoTracks()),
                        2),
                new Sheet(
                        "recorder",
                        RecorderPage.render(RecorderPageTest.sheet()),
                        RecorderPageTest.JSON.getBytes(StandardCharsets.UTF_8),
                        2));
    }

    /** Both widths and both schemes of every sheet in each build, crossed the other way at night. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("sheets")
    void drawsFitsPrintsAndCanBeUsedByEveryone(Sheet sheet) throws IOException {
        Page page = open(sheet, ColorScheme.LIGHT, 1100);
        assertThat(page.locator(".fold[open]").count()).as("unfolded").isZero();
        printsWholePages(page, sheet);
        unfold(page);
        drawsAndFits(page);
        assertThat(Axe.violations(page)).isEmpty();
        look(page, ColorScheme.DARK, 320);
        drawsAndFits(page);
        assertThat(Axe.violations(page)).isEmpty();
        printsInInkWhereTheScreenIsDark(page);
        Download download = page.waitForDownload(() -> page.locator("#download").click());
        assertThat(Files.readAllBytes(download.path())).isEqualTo(sheet.json());
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("sheets")
    @Tag("nightly")
    void drawsAndFitsInEveryOtherLook(Sheet sheet) throws IOException {
        Page page = open(sheet, ColorScheme.DARK, 1100);
        unfold(page);
        drawsAndFits(page);
        assertThat(Axe.violations(page)).isEmpty();
        look(page, ColorScheme.LIGHT, 360);
        drawsAndFits(page);
        assertThat(Axe.violations(page)).isEmpty();
    }

    private static void look(Page page, ColorScheme scheme, int width) {
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(scheme));
        page.setViewportSize(width, 900);
        // the page draws its charts anew when it is told of its width
        page.waitForFunction("innerWidth === " + width);
        page.evaluate("() => new Promise(done => requestAnimationFrame(() => setTimeout(done, 0)))");
    }

    /** All that is folded, by the button that is there for it. */
    private static void unfold(Page page) {
        page.locator("#unfold").click();
        page.evaluate("document.querySelectorAll('details').forEach(it => { it.open = true; })");
    }

    private static void drawsAndFits(Page page) {
        List<?> drawn = (List<?>) page.evaluate(DRAWN);
        assertThat(drawn).hasSize(page.locator(".plot").count());
        assertThat(drawn).allSatisfy(pixels -> assertThat((Integer) pixels).isGreaterThan(1000));
        for (Locator plot : page.locator(".plot").all()) {
            assertThat(plot.getAttribute("role")).isEqualTo("img");
            assertThat(plot.getAttribute("aria-label")).isNotBlank();
        }
        assertThat(Windows.sideways(page)).as("px to scroll sideways").isZero();
    }

    /** Pages of both papers with what is folded left folded: each says what it is of, and none holds only the last line. */
    private static void printsWholePages(Page page, Sheet sheet) {
        for (String paper : List.of("A4", "Letter")) {
            List<List<String>> pages = PrintedText.of(page.pdf(new Page.PdfOptions().setFormat(paper)));
            assertThat(pages).as(paper).isNotEmpty().hasSizeLessThanOrEqualTo(sheet.pages());
            if (page.title().length() < ONE_LINE) {
                assertThat(PrintedText.onEvery(pages, page.title().length()))
                        .as("the title on every page of %s", paper)
                        .isNotEmpty();
            }
            assertThat(pages).as(paper).allSatisfy(texts -> assertThat(texts).hasSizeGreaterThan(LEAST_TEXTS));
        }
    }

    private static void printsInInkWhereTheScreenIsDark(Page page) {
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        page.evaluate("dispatchEvent(new Event('beforeprint'))");
        assertThat(page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--paper').trim()"))
                .isEqualTo("#fcfbf6");
        assertThat((List<?>) page.evaluate(DRAWN))
                .allSatisfy(pixels -> assertThat((Integer) pixels).isGreaterThan(1000));
        assertThat(page.locator(".download").isVisible()).isFalse();
        page.evaluate("dispatchEvent(new Event('afterprint'))");
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));
    }

    @Test
    void wouldNoticeAViolation() throws IOException {
        Page page = show(Showcase.pass(), ColorScheme.LIGHT, 1100);
        page.evaluate("document.documentElement.removeAttribute('lang')");
        page.evaluate("document.querySelector('.sentence').style.color = '#ddd'");
        assertThat(Axe.violations(page)).contains("html-has-lang", "color-contrast");
    }

    /** Colours are calculated once for texts that look alike, so each that does not must be told from hundreds that do. */
    @Test
    void wouldNoticeOneTextAmongManyThatLookAlike() throws IOException {
        Page page = show(Showcase.pass(), ColorScheme.LIGHT, 1100);
        unfold(page);
        page.evaluate("""
                () => {
                  const cells = [...document.querySelectorAll('td')].filter(it => it.checkVisibility() && it.innerText.length > 2);
                  const change = (nth, id, what) => { const it = cells.at(nth); it.id = id; Object.assign(it.style, what); };
                  change(-1, 'ink', { color: '#bbb' });
                  change(-20, 'other-ink', { color: '#bbb' });
                  change(-40, 'ground', { backgroundColor: '#777' });
                  change(-60, 'faint', { opacity: 0.4 });
                  const last = document.querySelector('main').appendChild(document.createElement('div'));
                  last.innerHTML = '<p>in the clear</p><div style="height: 60px; background: #777"></div>' +
                    '<p id="over" style="position: relative; margin-top: -50px">over a box that it does not lie in</p>';
                }
                """);
        assertThat(Axe.violations(page)).contains("#ink", "#other-ink", "#ground", "#faint", "#over");
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
        for (int step = 0;
                step < 60 && !"record".equals(page.evaluate("document.activeElement.closest('section')?.id"));
                step++) {
            page.keyboard().press("Tab");
        }
        page.keyboard().press("Enter");
        String focused = "";
        for (int step = 0; step < 5 && !focused.equals("download"); step++) {
            page.keyboard().press("Tab");
            focused = (String) page.evaluate("document.activeElement.id");
        }
        assertThat(focused).as("reached with the Tab key").isEqualTo("download");
        Download download = page.waitForDownload(() -> page.keyboard().press("Enter"));
        assertThat(download.suggestedFilename()).isEqualTo("record-" + record.id() + ".json");
        assertThat(Files.readAllBytes(download.path())).isEqualTo(RecordJson.bytes(record));
    }

    /** What a chart would show stands in its sentence and its table, on a phone as well. */
    @Test
    void isReadableWithoutScripts() throws IOException {
        Page page = windows.blank(Windows.look(ColorScheme.LIGHT, 360).setJavaScriptEnabled(false));
        for (Sheet sheet :
                sheets().filter(it -> it.html().contains("class=\"plot\"")).toList()) {
            page.navigate(saved(sheet).toUri().toString());
            for (Locator plot : page.locator(".plot").all()) {
                assertThat(plot.textContent()).contains("table below");
            }
            for (Locator table : page.locator("details table").all()) {
                assertThat(table.locator("tbody tr").count()).isPositive();
            }
            for (Locator summary : page.locator("summary").all()) {
                assertThat(summary.textContent()).isNotBlank();
            }
            page.locator("#record summary").click();
            assertThat(page.locator("#record-json").inputValue())
                    .isEqualTo(new String(sheet.json(), StandardCharsets.UTF_8).replace("\r\n", "\n"));
            assertThat(page.locator("#download").isVisible()).isFalse();
            assertThat(page.locator("#unfold").isVisible()).isFalse();
        }
    }

    @Test
    void opensARunOfTwelveHours() throws IOException {
        Page page = show(Showcase.twelveHours(), ColorScheme.LIGHT, 1100);
        unfold(page);
        assertThat((List<?>) page.evaluate(DRAWN))
                .isNotEmpty()
                .allSatisfy(pixels -> assertThat((Integer) pixels).isGreaterThan(1000));
    }

    private Page show(RunRecord record, ColorScheme scheme, int width) throws IOException {
        return open(sheet("report", record, 2), scheme, width);
    }

    private Page open(Sheet sheet, ColorScheme scheme, int width) throws IOException {
        String address = saved(sheet).toUri().toString();
        return windows.open(
                address, Windows.look(scheme, width), asked -> asked.equals(address) || asked.startsWith("blob:"));
    }

    private Path saved(Sheet sheet) throws IOException {
        return Files.writeString(folder.resolve("sheet.html"), sheet.html());
    }
}
