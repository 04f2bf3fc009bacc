package tracksoak.report.page;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Playwright;
import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/** A real browser for tests: the machine's own Chromium and Node. The one without windows takes half the processor's time. */
final class Browser implements AutoCloseable {

    private static final List<String> QUIET = List.of(
            "--no-sandbox",
            "--disable-gpu",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync");

    private final Playwright playwright;
    private final com.microsoft.playwright.Browser browser;

    private Browser(Playwright playwright, com.microsoft.playwright.Browser browser) {
        this.playwright = playwright;
        this.browser = browser;
    }

    /** What of it this machine lacks. */
    static List<String> missing() {
        return Stream.of(node().isEmpty() ? "Node" : "", chrome().isEmpty() ? "Chromium" : "")
                .filter(what -> !what.isEmpty())
                .toList();
    }

    /** Starts one; only where nothing is {@link #missing()}. */
    static Browser open() {
        Playwright playwright = Playwright.create(new Playwright.CreateOptions()
                .setEnv(Map.of(
                        "PLAYWRIGHT_NODEJS_PATH",
                        node().orElseThrow().toString(),
                        "PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD",
                        "1")));
        return new Browser(
                playwright,
                playwright
                        .chromium()
                        .launch(new BrowserType.LaunchOptions()
                                .setExecutablePath(chrome().orElseThrow())
                                .setArgs(QUIET)));
    }

    com.microsoft.playwright.Browser chromium() {
        return browser;
    }

    void closeWindows() {
        List.copyOf(browser.contexts()).forEach(BrowserContext::close);
    }

    @Override
    public void close() {
        browser.close();
        playwright.close();
    }

    private static Optional<Path> node() {
        return found(System.getenv("PLAYWRIGHT_NODEJS_PATH"), "node");
    }

    private static Optional<Path> chrome() {
        return found(
                System.getenv("CHROMIUM"), "chromium-headless-shell", "chromium", "chromium-browser", "google-chrome");
    }

    private static Optional<Path> found(@Nullable String named, String... names) {
        return Stream.concat(
                        Stream.ofNullable(named).map(Path::of),
                        Arrays.stream(names).flatMap(Browser::onPath))
                .filter(Files::isRegularFile)
                .findFirst();
    }

    private static Stream<Path> onPath(String name) {
        String path = System.getenv("PATH");
        return path == null
                ? Stream.empty()
                : Arrays.stream(path.split(File.pathSeparator, -1)).map(folder -> Path.of(folder, name));
    }
}
