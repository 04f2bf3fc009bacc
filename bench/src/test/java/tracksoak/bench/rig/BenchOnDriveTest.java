package tracksoak.bench.rig;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.page.Axe;
import tracksoak.report.page.NeedsBrowser;
import tracksoak.report.page.Windows;

/** The whole way by mouse, with the program itself and a real block device that is plugged in while the page is open. */
@NeedsRig
@Tag("program")
@Tag("patient")
@NeedsBrowser
@Order(1)
class BenchOnDriveTest {

    private static final double LONG_MS = 300_000;

    @TempDir
    Path host;

    private final Windows windows;

    BenchOnDriveTest(Windows windows) {
        this.windows = windows;
    }

    @Test
    void aDriveIsPluggedInTestedReportedLabelledAndListed() throws IOException {
        try (Program bench = Program.of(host, "bench", "--no-browser")) {
            assertThat(Host.await(30_000, () -> bench.output().contains("open?key=")))
                    .as(bench.output())
                    .isTrue();
            String address = bench.output().replaceAll("(?s).*(http\\S+).*", "$1");
            String site = address.substring(0, address.indexOf("open?"));
            Page page = windows.open(address, Windows.look(ColorScheme.LIGHT, 1280), url -> url.startsWith(site));
            page.waitForURL(site + "bench");
            makeSession(page);
            page.locator(".menu").getByText("Bench").click();
            try (Rig drive = Rig.of(FileSystem.EXT4, 560)) {
                Locator plugged = page.locator(".plugged li")
                        .filter(new Locator.FilterOptions()
                                .setHasText(drive.path().toString()));
                plugged.waitFor(new Locator.WaitForOptions().setTimeout(20_000));
                plugged.getByText("Test this drive").click();
                start(page);
                Page phone = watched(page, address, site);
                page.locator("p[data-state=pass], p[data-state=none], p[data-state=fail]")
                        .waitFor(new Locator.WaitForOptions().setTimeout(LONG_MS));
                // a machine that others use may be late
                assertThat(page.locator(".answer").innerText())
                        .as(page.locator("#fresh").innerText())
                        .containsAnyOf("PASS", "NO VERDICT");
                phone.locator("p[data-state=going]")
                        .waitFor(new Locator.WaitForOptions()
                                .setState(com.microsoft.playwright.options.WaitForSelectorState.DETACHED));
                Windows.picture(page, "bench-run-over-light");
                Windows.picture(phone, "bench-run-over-dark");
                afterwards(page);
                assertThat(drive.path()).isDirectoryNotContaining("glob:**TRACKSOAK-*");
            }
            page.locator(".menu").getByText("Bench").click();
            assertThat(page.locator("tr .tag").first().innerText()).isEqualTo("RIG-1");
            assertThat(windows.complaints()).isEmpty();
            bench.stop();
            assertThat(bench.await()).isEqualTo(130);
            assertThat(bench.output()).doesNotContain("\tat ");
            // the key of a bench that is gone is left nowhere
            assertThat(host.resolve("state/tracksoak/bench")).isDirectoryNotContaining("glob:**bench*");
        }
    }

    /** Of a shipped one: what the drive is formatted with here is accepted, too. */
    private static void makeSession(Page page) {
        page.locator(".menu").getByText("Sessions").click();
        page.getByText("trio-8", new Page.GetByTextOptions().setExact(true)).click();
        page.locator("#name").fill("rig-8");
        page.locator("#length").fill("1 min");
        page.locator("summary").click();
        page.locator("#file_systems").fill("ext4");
        page.getByText("Save it under this name").click();
        page.waitForURL("**/bench/sessions/rig-8?saved=yes");
    }

    private static void start(Page page) {
        page.locator("#session").selectOption("rig-8");
        page.locator("#tag").fill("rig-1");
        page.getByText("Show what will be done").click();
        page.getByText("Start the test").waitFor();
        assertThat(page.locator("table.facts").innerText()).containsPattern("at most [0-9]+ MB");
        Windows.picture(page, "bench-run-start-light");
        page.getByText("Start the test").click();
        page.waitForURL("**/bench/runs/*");
    }

    /** While it goes on, in a second window, on a phone in the dark, and on paper. */
    private Page watched(Page page, String address, String site) throws IOException {
        page.locator("figure.backlog").waitFor(new Locator.WaitForOptions().setTimeout(LONG_MS));
        Page phone = windows.open(address, Windows.look(ColorScheme.DARK, 360), url -> url.startsWith(site));
        phone.waitForURL(site + "bench");
        assertThat(phone.locator("#runs-title").count()).isOne();
        phone.navigate(page.url());
        phone.locator("figure.backlog").waitFor();
        assertThat(phone.locator("table.facts").first().innerText())
                .contains("8 of 8")
                .contains("of a buffer of 2 s");
        assertThat(Windows.sideways(phone)).isZero();
        assertThat(Axe.violations(phone)).isEmpty();
        String first = phone.locator("#fresh").innerText();
        phone.waitForFunction("before => document.getElementById('fresh').innerText !== before", first);
        Windows.picture(phone, "bench-run-going-dark");
        Windows.picture(page, "bench-run-going-light");
        phone.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        assertThat(phone.getByText("Stop the test").isVisible()).isFalse();
        phone.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));
        return phone;
    }

    private static void afterwards(Page page) {
        String run = page.url();
        page.getByText("Read the report").click();
        page.waitForURL("**/report");
        assertThat(page.locator("body").innerText()).contains("RIG-1", "8 tracks of a small act");
        page.navigate(run);
        page.getByText("Print its label").click();
        page.waitForURL("**/labels?drive=*");
        assertThat(page.locator(".label h2").innerText()).isEqualTo("RIG-1");
        page.locator(".menu").getByText("All drives").click();
        assertThat(page.locator("main").innerText()).contains("RIG-1");
        page.locator(".menu").getByText("What to take tonight").click();
        assertThat(page.locator("main h1").count()).isOne();
    }
}
