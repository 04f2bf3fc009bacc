package tracksoak.report.page;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

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
import org.junit.jupiter.api.Assertions;

/**
 * A real browser for tests: the machine's own Chromium and Node. Where one is missing the tests say so and are skipped;
 * under {@code CI=true} they fail instead.
 */
public final class Browser implements AutoCloseable {

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

    public static Browser open() {
        Path node = required("Node", System.getenv("PLAYWRIGHT_NODEJS_PATH"), "node");
        Path chromium =
                required("Chromium", System.getenv("CHROMIUM"), "chromium", "chromium-browser", "google-chrome");
        Playwright playwright = Playwright.create(new Playwright.CreateOptions()
                .setEnv(Map.of("PLAYWRIGHT_NODEJS_PATH", node.toString(), "PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
        return new Browser(
                playwright,
                playwright
                        .chromium()
                        .launch(new BrowserType.LaunchOptions()
                                .setExecutablePath(chromium)
                                .setArgs(QUIET)));
    }

    public com.microsoft.playwright.Browser chromium() {
        return browser;
    }

    @Override
    public void close() {
        browser.close();
        playwright.close();
    }

    /** The file, or the test is skipped (failed under CI) with what is missing. */
    static Path required(String what, @Nullable String named, String... names) {
        Optional<Path> found = Stream.concat(
                        Stream.ofNullable(named).map(Path::of),
                        Arrays.stream(names).flatMap(Browser::onPath))
                .filter(Files::isRegularFile)
                .findFirst();
        if (found.isEmpty()) {
            String why = what + " is not on this machine, so no page was opened in a real browser";
            if ("true".equals(System.getenv("CI"))) {
                Assertions.fail(why + "; CI must have it");
            }
            assumeTrue(false, why);
        }
        return found.orElseThrow();
    }

    private static Stream<Path> onPath(String name) {
        String path = System.getenv("PATH");
        return path == null
                ? Stream.empty()
                : Arrays.stream(path.split(File.pathSeparator, -1)).map(folder -> Path.of(folder, name));
    }
}
