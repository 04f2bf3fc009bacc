package tracksoak.bench.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tracksoak.bench.command.TestRooms;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.tray.LiveRun;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.page.Axe;
import tracksoak.report.page.NeedsBrowser;
import tracksoak.report.page.Windows;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.json.RecordFile;

/** The bench as a person sees and uses it, in a real browser; its runs are real processes at simulated drives. */
@NeedsBrowser
class BenchInBrowserTest {

    private static final String MARKUP = "<img src=x onerror='window.ran=1'>";
    private static final double LONG_MS = 90_000;
    private static final Path RECORDS = Path.of("../report/src/test/resources/records");
    private static final Path PASSED = RECORDS.resolve("version-3-sound-check-pass.json");
    private static final Path FAILED = RECORDS.resolve("version-1-line-check-fail.json");

    @TempDir
    static Path folder;

    private static @Nullable ServedBench bench;

    private final Windows windows;

    BenchInBrowserTest(Windows windows) {
        this.windows = windows;
    }

    @BeforeAll
    static void open() {
        bench = new ServedBench(
                folder,
                new TestRooms(
                        folder,
                        List.of(
                                TestRooms.stick("/media/barn", "Lantern", "Wagon 64"),
                                TestRooms.stick("/media/" + MARKUP, MARKUP, MARKUP),
                                TestRooms.unmounted())));
    }

    @AfterAll
    static void close() {
        if (bench != null) {
            // a page that asks while the bench ends is told to come back
            List<String> requests = List.copyOf(bench.requests);
            bench.close();
            assertThat(bench.failures).isEmpty();
            assertThat(requests.stream()
                            .filter(line -> line.matches(".* [45][0-9]{2}") && !line.endsWith(" 422"))
                            // a window that goes on before an answer came has closed that connection: nobody is there
                            .filter(line -> !line.endsWith(" 408")))
                    .isEmpty();
        }
    }

    private static ServedBench bench() {
        return Objects.requireNonNull(bench);
    }

    private Page show(String path, ColorScheme scheme, int width) {
        Page page = windows.open(
                bench().open(),
                Windows.look(scheme, width).setHasTouch(width < 500),
                url -> url.startsWith(bench().address("/")));
        page.waitForURL(bench().address("/bench"));
        if (!path.equals("/bench")) {
            page.navigate(bench().address(path));
        }
        return page;
    }

    static Stream<Arguments> pages() {
        return Stream.of(
                        "/bench",
                        "/bench/new",
                        "/bench/new?drive=simulated-steady-ssd&session=trio-8&plan=line-check&tag=w-3",
                        "/bench/new?drive=gone&session=trio-8&plan=line-check",
                        "/bench/tray",
                        "/bench/sessions",
                        "/bench/sessions/mixdown-32",
                        "/bench/help",
                        "/")
                .flatMap(path -> Stream.of(
                                Arguments.of(path, ColorScheme.LIGHT, 1280), Arguments.of(path, ColorScheme.DARK, 360))
                        .filter(look -> (!path.equals("/") && !path.equals("/bench/help"))
                                || look.get()[1] == ColorScheme.DARK));
    }

    @ParameterizedTest(name = "{0} {1} at {2} px")
    @MethodSource("pages")
    void fitsTheWindowAndCanBeUsedByEveryone(String path, ColorScheme scheme, int width) throws IOException {
        Page page = show(path, scheme, width);
        assertThat(Windows.sideways(page)).as("px to scroll sideways").isZero();
        assertThat(Axe.violations(page)).isEmpty();
        assertThat(windows.complaints()).isEmpty();
        assertThat(page.evaluate("window.ran")).isNull();
        Windows.picture(
                page,
                "bench" + path.replaceAll("[^a-z]+", "-") + "-" + scheme.name().toLowerCase(Locale.ROOT));
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        assertThat(page.locator(".menu").isVisible()).isFalse();
    }

    /** The whole way, by keyboard alone and by taps on a phone: choose, see what is written, start, watch, verdict, report, label. */
    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"keyboard", "phone"})
    void aDriveIsTestedFromTheKeyboardAndOnAPhone(String by) throws IOException {
        boolean taps = by.equals("phone");
        Page page = show("/bench", ColorScheme.LIGHT, taps ? 390 : 1280);
        use(page, page.getByText("Try it with a simulated drive"), taps);
        page.waitForURL("**/bench/new?drive=simulated-*");
        assertThat(page.locator("#drive").inputValue()).isEqualTo("simulated-steady-stick");
        if (taps) {
            page.locator("#drive").selectOption("simulated-tidying-stick");
            page.locator("#session").selectOption("trio-8");
            page.locator("#tag").fill("walk-1");
            page.getByText("Show what will be done").tap();
        } else {
            page.locator("#drive").focus();
            page.keyboard().type("tidying-stick");
            page.locator("#session").focus();
            page.keyboard().type("trio-8");
            page.locator("#tag").focus();
            page.keyboard().type("walk-1");
            page.keyboard().press("Enter");
        }
        page.waitForURL("**/bench/new?**session=**");
        assertThat(page.locator("table.facts").innerText()).contains("at most 209 MB");
        look(page, "start", by);
        if (taps) {
            page.locator("input[name=enter]").tap();
        } else {
            page.locator("input[name=enter]").focus();
            page.keyboard().press("Space");
        }
        use(page, page.getByText("Start the test"), taps);
        page.waitForURL("**/bench/runs/*");
        page.locator("p[data-state=fail]").waitFor(new Locator.WaitForOptions().setTimeout(LONG_MS));
        assertThat(page.locator(".sentence").innerText()).contains("Audio was lost");
        assertThat(page.title())
                .startsWith("Test of ")
                .contains(page.locator("h1").innerText());
        assertThat(page.locator(".advice").innerText()).contains("This drive is simulated");
        Locator label = page.getByText("Print its label");
        label.waitFor(new Locator.WaitForOptions().setTimeout(LONG_MS));
        look(page, "run-over", by);
        String run = page.url();
        use(page, label, taps);
        page.waitForURL("**/labels?drive=*");
        assertThat(page.locator(".label h2").innerText()).isEqualTo("WALK-1");
        look(page, "label", by);
        page.navigate(run);
        use(page, page.getByText("The drive in the roster"), taps);
        page.waitForURL("**/drives/*");
        look(page, "drive", by);
        page.navigate(run);
        use(page, page.getByText("Read the report"), taps);
        page.waitForURL("**/report");
        assertThat(page.locator("h1, .verdict").first().innerText()).isNotBlank();
        page.navigate(bench().address("/bench"));
        assertThat(page.locator("tr.fail .tag").first().innerText()).isEqualTo("WALK-1");
        look(page, "bench-after", by);
        page.navigate(run);
        use(page, page.getByText("Test it again"), taps);
        page.waitForURL("**/bench/new?**");
        assertThat(page.locator("#drive").inputValue()).isEqualTo("simulated-tidying-stick");
        assertThat(windows.complaints()).isEmpty();
    }

    private static void look(Page page, String what, String by) throws IOException {
        assertThat(Windows.sideways(page)).as("px to scroll sideways").isZero();
        assertThat(Axe.violations(page)).isEmpty();
        Windows.picture(page, "bench-walk-" + what + "-" + by);
    }

    @Test
    void aSessionIsMadeByTheRulesOfAFile() throws IOException {
        Page page = show("/bench/sessions/band-32", ColorScheme.LIGHT, 1280);
        page.locator("#name").fill("lantern-20");
        page.locator("#tracks0-count").fill("20");
        page.locator("#buffer_s").fill("0");
        page.getByText("Save it under this name").click();
        assertThat(page.locator("[role=alert]").innerText())
                .contains("Recorder's buffer: 0")
                .contains("0.01");
        assertThat(page.locator("#name").inputValue()).isEqualTo("lantern-20");
        page.locator("#buffer_s").fill("3");
        page.getByText("Save it under this name").click();
        page.waitForURL("**/bench/sessions/lantern-20?saved=yes");
        assertThat(page.locator("table.facts").innerText())
                .contains("20 tracks, 48 kHz, 24\u2011bit")
                .contains("3 s per track");
        assertThat(Files.readString(folder.resolve("sessions/lantern-20.toml"))).contains("buffer_s = 3");
        page.locator("#name").fill("band-32");
        page.getByText("Save it under this name").click();
        assertThat(page.locator("[role=alert]").innerText()).contains("the name of a shipped session");
        // of the page with what was wrong Chromium itself says that it is one
        assertThat(windows.complaints()).allMatch(line -> line.contains("status of 422"));
    }

    /** Stopped from the page; a second window shows the same, whatever became of the first. */
    @Test
    void aRunOutlivesItsPageAndIsStoppedFromAnother() {
        Page first = show("/bench/new?drive=simulated-old-disk&session=trio-8&plan=full-show", ColorScheme.LIGHT, 1280);
        first.getByText("Start the test").click();
        first.waitForURL("**/bench/runs/*");
        String run = first.url();
        first.locator("table.facts caption:text('How it gets on')")
                .waitFor(new Locator.WaitForOptions().setTimeout(LONG_MS));
        first.close();
        Page second = show("/bench", ColorScheme.DARK, 360);
        second.navigate(run);
        assertThat(second.locator("p[data-state=going]").count()).isOne();
        Windows.picture(second, "bench-walk-run-going-dark");
        second.getByText("Stop the test").click();
        second.locator("p[data-state=none]").waitFor(new Locator.WaitForOptions().setTimeout(LONG_MS));
        assertThat(second.getByText("Stop the test").count()).isZero();
        assertThat(windows.complaints()).isEmpty();
    }

    /** Two drives of a tray, as their processes would tell of them; somebody wants to hear its end. */
    @Test
    void aTrayIsWatchedToItsEndAndHeard() {
        String tray = RunOrders.newId();
        LiveRun one = begun(tray, "one");
        LiveRun two = begun(tray, "two");
        one.works(() -> "systemd-inhibit");
        two.waits("another drive on its link");
        Page page = windows.blank(Windows.look(ColorScheme.DARK, 360));
        page.addInitScript("window.tones = 0; const start = OscillatorNode.prototype.start;"
                + "OscillatorNode.prototype.start = function (at) { window.tones++; start.call(this, at); };");
        page.navigate(bench().open());
        page.waitForURL(bench().address("/bench"));
        page.getByText("Tray", new Page.GetByTextOptions().setExact(true)).click();
        page.getByText("This tray on a page of its own").click();
        page.waitForURL("**/bench/tray/" + tray);
        assertThat(page.locator(".answer").innerText()).isEqualTo("2 drives of 2 still to be tested.");
        assertThat(page.locator("#fresh").innerText())
                .contains("This computer is kept awake (systemd-inhibit).")
                .contains("Waits for another drive on its link.");
        page.locator("#ring button").focus();
        page.keyboard().press("Space");
        assertThat(page.locator("#ring").innerText()).contains("Leave this page open");
        assertThat(page.evaluate("window.tones")).isEqualTo(3);
        Windows.picture(page, "bench-tray-going-dark");
        one.works(() -> "");
        page.getByText("Nothing keeps this computer awake").waitFor();
        one.over(RecordFile.load(FAILED), "");
        one.ends();
        page.locator("tr.fail").waitFor();
        assertThat(page.evaluate("window.tones")).isEqualTo(3);
        two.entered("d-" + "0".repeat(20), "TWO");
        two.over(RecordFile.load(PASSED), "");
        two.ends();
        page.locator("[data-going=no]").waitFor();
        assertThat(page.locator(".answer").innerText()).isEqualTo("All done: 1 of 2 drives passed.");
        page.waitForFunction("window.tones === 15");
        assertThat(page.getByText("Print 1 label").getAttribute("href")).isEqualTo("/labels?drive=d-" + "0".repeat(20));
        Windows.picture(page, "bench-tray-over-dark");
    }

    /** What a drive says of itself and what the system says of it, in every place of a run that changes while one looks. */
    @Test
    void markupFromHardwareStaysLettersInEveryLiveElement() {
        String tray = RunOrders.newId();
        RunOrder order = order(tray, MARKUP);
        LiveRun live = told(order, SystemClocks.NANO);
        live.works(() -> MARKUP);
        live.note(MARKUP);
        for (String path : List.of("/bench", "/bench/tray/" + tray, "/bench/runs/" + order.id())) {
            Page page = show(path, ColorScheme.LIGHT, 1280);
            live.waits(MARKUP + path);
            page.getByText(MARKUP + path).first().waitFor();
            live.progress(progress(7));
            live.works(() -> MARKUP);
            live.trouble(Problem.cannot(MARKUP, MARKUP));
            page.getByText("testing").first().waitFor();
            assertThat(page.evaluate("window.ran")).isNull();
            assertThat(page.locator("main img").count()).isZero();
            page.close();
        }
        Page page = show("/bench/runs/" + order.id(), ColorScheme.LIGHT, 1280);
        live.failed(MARKUP, MARKUP);
        live.ends();
        page.locator("p[data-state=none]").waitFor();
        assertThat(page.locator("#fresh").innerText()).contains(MARKUP);
        assertThat(page.title()).contains(MARKUP);
        assertThat(page.evaluate("window.ran")).isNull();
        assertThat(page.locator("main img").count()).isZero();
        assertThat(windows.complaints()).isEmpty();
    }

    /** Held as long as a slow hand holds it, while the figures change five times a second and more. */
    @Test
    void aPressOnStopIsNeverLost() {
        RunOrder order = order("", "pressed");
        LiveRun live = told(order, SystemClocks.NANO);
        live.works(() -> "");
        live.progress(progress(1));
        Page page = show("/bench/runs/" + order.id(), ColorScheme.LIGHT, 1280);
        page.evaluate("document.querySelector('#fresh button').first = true");
        page.locator("#fresh button").focus();
        live.progress(progress(200));
        page.getByText("200 ms of a buffer").waitFor();
        // the chart goes, the figures become fewer: all in front of it changes
        live.progress(progress(PhaseKind.CLOSE, 0));
        page.getByText("close (making it safe to unplug)").first().waitFor();
        live.waits("another drive");
        page.getByText("Waits for another drive.").waitFor();
        live.progress(progress(201));
        live.works(() -> "");
        page.getByText("201 ms of a buffer").waitFor();
        assertThat(page.evaluate("document.querySelector('#fresh button').first"))
                .isEqualTo(true);
        assertThat(page.evaluate("document.activeElement.first")).isEqualTo(true);
        assertThat(page.locator("#told").getAttribute("data-lost")).contains("Start it again");
        BoundingBox button =
                Objects.requireNonNull(page.locator("#fresh button").boundingBox());
        page.mouse().move(button.x + button.width / 2, button.y + button.height / 2);
        page.mouse().down();
        for (int i = 0; i < 5; i++) {
            live.progress(progress(300 + i));
            page.waitForTimeout(50);
        }
        page.mouse().up();
        page.waitForCondition(live::toStop, new Page.WaitForConditionOptions().setTimeout(5_000));
        live.ends();
        page.locator("p[data-state=none]").waitFor();
        assertThat(windows.complaints()).isEmpty();
    }

    /** More tabs than a browser has connections for: each opened behind the others, then looked at, then hidden by the next. */
    @Test
    void anyNumberOfTabsIsServed() {
        RunOrder order = order("", "tabs");
        // a run says its figures ten times a second at most: here every one of them
        AtomicLong second = new AtomicLong();
        LiveRun live = told(order, () -> second.addAndGet(1_000_000_000));
        live.works(() -> "");
        live.progress(progress(1));
        BrowserContext context =
                windows.blank(Windows.look(ColorScheme.LIGHT, 1280)).context();
        context.addInitScript(
                "let seen = 'hidden';Object.defineProperty(Document.prototype, 'visibilityState', { get: () => seen"
                        + " });window.becomes = state => { seen = state; document.dispatchEvent(new"
                        + " Event('visibilitychange')); };");
        List<Page> tabs = new ArrayList<>();
        for (int i = 1; i <= 9; i++) {
            Page tab = context.newPage();
            tab.navigate(tabs.isEmpty() ? bench().open() : bench().address("/bench/runs/" + order.id()));
            if (tabs.isEmpty()) {
                tab.waitForURL(bench().address("/bench"));
                tab.navigate(bench().address("/bench/runs/" + order.id()));
            } else {
                tabs.get(tabs.size() - 1).evaluate("window.becomes('hidden')");
            }
            tab.evaluate("window.becomes('visible')");
            tabs.add(tab);
            live.progress(progress(200 + i));
            tab.getByText(200 + i + " ms of a buffer").waitFor();
        }
        Page first = tabs.get(0);
        assertThat(first.getByText("201 ms of a buffer").count()).isOne();
        tabs.get(8).evaluate("window.becomes('hidden')");
        first.evaluate("window.becomes('visible')");
        first.getByText("209 ms of a buffer").waitFor();
        live.ends();
    }

    private static Progress progress(int backlogMs) {
        return progress(PhaseKind.TAKE, backlogMs);
    }

    private static Progress progress(PhaseKind phase, int backlogMs) {
        return new Progress(phase, 1, 3, 5, 60, 55, 8, 8, backlogMs, backlogMs, 2_000, 12, 0, 1_000_000, 1, 0);
    }

    private static RunOrder order(String tray, String drive) {
        return new RunOrders(new TestRooms(folder, List.of()), SystemClocks.EPOCH)
                .simulated(drive, tray, List.of(), "trio-8", "line-check", "");
    }

    private static LiveRun told(RunOrder order, NanoClock clock) {
        return new LiveRun(bench().shelf.put(order), new Nobody(), new OffSwitch(), SystemClocks.EPOCH, clock);
    }

    private static LiveRun begun(String tray, String drive) {
        return told(order(tray, drive), SystemClocks.NANO);
    }

    private static void use(Page page, Locator locator, boolean taps) {
        if (taps) {
            locator.first().tap();
        } else {
            locator.first().focus();
            page.keyboard().press("Enter");
        }
    }
}
