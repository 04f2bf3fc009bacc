package tracksoak.report.page;

import com.microsoft.playwright.Browser.NewContextOptions;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;

/** The windows one test opens, and what they complain of: the console, errors of scripts, requests nobody expected. */
public final class Windows implements AutoCloseable {

    private static final int HEIGHT = 900;

    private final List<String> complaints = new ArrayList<>();
    private final List<BrowserContext> contexts = new ArrayList<>();
    private final Browser browser;

    Windows(Browser browser) {
        this.browser = browser;
    }

    /** How a person sees it. */
    public static NewContextOptions look(ColorScheme scheme, int width) {
        return new NewContextOptions().setColorScheme(scheme).setViewportSize(width, HEIGHT);
    }

    /** An empty window of a visitor of its own. Nobody listens to its complaints. */
    public Page blank(NewContextOptions look) {
        BrowserContext context = browser.chromium().newContext(look);
        contexts.add(context);
        return context.newPage();
    }

    /**
     * A window that shows an address.
     *
     * @param expected addresses it may ask for
     */
    public Page open(String address, NewContextOptions look, Predicate<String> expected) {
        Page page = blank(look);
        page.onConsoleMessage(message -> complaints.add("console " + message.type() + ": " + message.text()));
        page.onPageError(error -> complaints.add("error: " + error));
        page.onRequest(request -> {
            if (!expected.test(request.url())) {
                complaints.add("request: " + request.url());
            }
        });
        page.navigate(address);
        return page;
    }

    /** All so far. */
    public List<String> complaints() {
        return complaints;
    }

    /** How far a page goes beyond its window, in CSS pixels. */
    public static int sideways(Page page) {
        return (Integer) page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth");
    }

    /** A picture of the whole page in the folder of {@code -Dpage.shots}, where that is given. */
    public static void picture(Page page, String name) {
        String shots = System.getProperty("page.shots");
        if (shots != null) {
            page.screenshot(new Page.ScreenshotOptions()
                    .setFullPage(true)
                    .setPath(Path.of(shots).resolve(name + ".png")));
        }
    }

    @Override
    public void close() {
        contexts.forEach(BrowserContext::close);
        contexts.clear();
    }
}
