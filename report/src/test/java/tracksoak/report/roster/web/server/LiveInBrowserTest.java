package tracksoak.report.roster.web.server;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.net.URI;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;
import tracksoak.report.page.NeedsBrowser;
import tracksoak.report.page.Windows;
import tracksoak.report.roster.exchange.Parcel;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.web.Dozen;
import tracksoak.report.roster.web.Served;

/** Pages that stay open while records arrive. */
@NeedsBrowser
@Isolated("measures real time in a browser")
class LiveInBrowserTest {

    /** The issue asks for a second, by the browser's own clock. */
    private static final double SECOND_MS = 1000;

    private final Windows windows;

    @TempDir
    Path folder;

    private Served served;

    LiveInBrowserTest(Windows windows) {
        this.windows = windows;
    }

    @BeforeEach
    void start() {
        served = new Served(folder);
        Dozen.fill(served);
    }

    @AfterEach
    void stop() {
        windows.close();
        served.close();
        assertThat(served.failures).isEmpty();
    }

    private Page show(String path) {
        String base = served.base().toString();
        Page page = windows.open(
                base + path.substring(1), Windows.look(ColorScheme.LIGHT, 1280), asked -> asked.startsWith(base));
        page.evaluate("window.untouched = true");
        return page;
    }

    /** Notes in the page when a text first stands in it, by the browser's clock. */
    private static void await(Page page, String text) {
        page.evaluate("""
            text => {
              window.shownAt = null;
              const look = () => {
                if (window.shownAt === null && document.getElementById('fresh').textContent.includes(text)) {
                  window.shownAt = Date.now();
                }
              };
              new MutationObserver(look).observe(document.body, { childList: true, characterData: true, subtree: true });
              look();
            }
            """, text);
    }

    private static double shownMsAfter(Page page, double arrivedMs) {
        until(page, "window.shownAt !== null");
        assertThat(page.evaluate("window.untouched")).as("not loaded again").isEqualTo(true);
        return Math.max(0, ((Number) page.evaluate("window.shownAt")).doubleValue() - arrivedMs);
    }

    /** Looks by the debugger: the page's policy forbids what would look from within. */
    private static void until(Page page, String condition) {
        assertThat(page.evaluate("() => new Promise(done => {\n"
                        + "  const end = Date.now() + 60000;\n"
                        + "  const look = () => (" + condition + ") ? done('so it is')\n"
                        + "    : Date.now() > end ? done('not within a minute') : setTimeout(look, 10);\n"
                        + "  look();\n"
                        + "})"))
                .as(condition)
                .isEqualTo("so it is");
    }

    private static double now(Page page) {
        return ((Number) page.evaluate("Date.now()")).doubleValue();
    }

    /** By another program on the same roster, and by a laptop's sync. */
    @Test
    void aRecordIsShownWithinASecondOfItsAcknowledgement() {
        Page page = show("/");
        List<Double> delays = new ArrayList<>();
        for (int number = 21; number <= 25; number++) {
            String tag = "S-0" + number;
            await(page, tag);
            served.desk.enter(Dozen.stick(number, 0).signed(served.key), tag);
            delays.add(shownMsAfter(page, now(page)));
        }
        System.out.println("ms from the acknowledgement of a record to its row in the page: " + delays);
        assertThat(delays.stream().sorted().toList().get(delays.size() / 2)).isLessThan(SECOND_MS);
        assertThat(page.locator("a.tag").count()).isEqualTo(17);
        assertThat(windows.complaints()).isEmpty();
    }

    @Test
    void aSyncShowsOnTheDrivesPageAndTheFocusStays() {
        Page page = show("/drives/S-001");
        page.locator(".runs a").first().focus();
        String focused = (String) page.evaluate("document.activeElement.getAttribute('href')");
        await(page, "now with the long cable");
        List<Parcel> parcels = served.elsewhere(served.key, desk -> {
            desk.enter(Dozen.stick(1, 1).signed(served.key), "S-001");
            desk.note("S-001", "now with the long cable");
        });
        new RemoteRoster(served.base(), served.token.text(), null).push(parcels);
        assertThat(shownMsAfter(page, now(page))).isLessThan(10 * SECOND_MS);
        assertThat(page.locator(".runs tbody tr").count()).isEqualTo(5);
        assertThat(page.evaluate("document.activeElement.getAttribute('href')")).isEqualTo(focused);
        assertThat(windows.complaints()).isEmpty();
    }

    /** What arrives between the answer with the page and the page's first question for news. */
    @Test
    void aRecordThatArrivesWhileThePageLoadsIsNotMissed() {
        String base = served.base().toString();
        Page page = windows.blank(Windows.look(ColorScheme.LIGHT, 1280));
        page.route("**/assets/live.js", route -> {
            served.desk.enter(Dozen.stick(41, 0).signed(served.key), "S-041");
            route.resume();
        });
        page.navigate(base);
        until(page, "document.getElementById('fresh').textContent.includes('S-041')");
    }

    /** The page says that it is cut off, and what came meanwhile is shown once the server is back. */
    @Test
    void aPageOutlivesTheServer() {
        Page page = show("/");
        List<String> refused = new ArrayList<>();
        page.onResponse(answer -> {
            if (answer.status() >= 400) {
                refused.add(answer.status() + " " + URI.create(answer.url()).getPath());
            }
        });
        await(page, "S-031");
        served.restart(() -> {
            until(page, "document.getElementById('told').textContent.includes('Not connected. As of 2026-02-15')");
            assertThat(page.locator("#told").innerText()).endsWith("once the roster can be reached again.");
            // a server that is closing takes no more streams, and says so once: then it is gone. The browser may still
            // ask for its icon
            assertThat(refused).doesNotHaveDuplicates().isSubsetOf("503 /live", "503 /assets/mark.svg");
            refused.clear();
            served.desk.enter(Dozen.stick(31, 0).signed(served.key), "S-031");
        });
        assertThat(shownMsAfter(page, now(page))).isLessThan(30 * SECOND_MS);
        until(page, "!document.getElementById('told').textContent.includes('Not connected')");
        assertThat(refused).as("by the server that came back").isEmpty();
        assertThat(windows.complaints()).allMatch(line -> line.contains("net::ERR") || line.contains("status of 503"));
    }
}
