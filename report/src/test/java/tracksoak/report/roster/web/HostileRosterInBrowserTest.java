package tracksoak.report.roster.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.page.Axe;
import tracksoak.report.page.NeedsBrowser;
import tracksoak.report.page.Windows;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.roster.Shows;

/** Records and notes whose every text tries to break out, hide, reorder or flood, in a real browser. */
class HostileRosterInBrowserTest {

    private static final String MARKUP =
            "</title></td></script><img src=x onerror=\"window.ran=1\"><script>window.ran=1</script>' \"&amp;";
    private static final String TURNED = "abc\u202E\u2066\u200F321\u0000\u2028\u0301\u0301\u0301\u0301\u0301\u0301";
    /** The longest a record may hold; see the test of longer ones. */
    private static final String FLOOD = "W".repeat(4_000);

    @TempDir
    Path folder;

    private static void fill(Served served) {
        List<String> texts = List.of(MARKUP, TURNED, FLOOD);
        for (int i = 0; i < texts.size(); i++) {
            String text = texts.get(i);
            String tag = i == 2 ? "W".repeat(24) : "X-00" + i;
            for (int daysAgo = 5; daysAgo >= 1; daysAgo -= 2) {
                Shows show = Dozen.stick(40 + i, daysAgo).hardware(text, text);
                show.serial = i + text.substring(0, Math.min(3_990, text.length()));
                show.sketch.stateReason = text;
                served.desk.enter(show.signed(served.key), tag);
            }
            String words = text.substring(0, Math.min(1_000, text.length()));
            served.desk.note(tag, words);
            served.desk.withdraw(tag, words);
        }
        TesterKey stranger = TesterKey.create("<b>Wren</b>");
        served.desk.addKey(stranger.verifyKey(), stranger.name(), MARKUP);
        served.desk.enter(Dozen.stick(50, 1).signed(stranger), "X-050");
    }

    @Test
    void tenThousandCharactersAreRefused() {
        try (Served served = new Served(folder)) {
            Shows show = Shows.pass("B4RN-0001", Shows.START).hardware("W".repeat(10_000), "Wagon");
            assertThatThrownBy(() -> served.desk.enter(show.signed(served.key), "X-001"))
                    .isInstanceOf(RecordException.class)
                    .hasMessageContaining("at most 4000");
        }
    }

    @Test
    @NeedsBrowser
    void nothingRunsHidesOrBreaksThePage(Windows windows) throws IOException {
        try (Served served = new Served(folder)) {
            fill(served);
            String base = served.base().toString();
            List<String> paths = new ArrayList<>(List.of(
                    "",
                    "tonight?session=barn-32",
                    "?q=%3Cimg%20src%3Dx%20onerror%3Dwindow.ran%3D1%3E",
                    "labels?size=40x20",
                    "labels?size=70x37-a4"));
            for (String tag : List.of("X-000", "X-001", "W".repeat(24))) {
                paths.add("drives/" + served.roster.drive(tag, null).drive().id());
            }
            for (int width : new int[] {1280, 360}) {
                for (String path : paths) {
                    Page page = windows.open(
                            base + path, Windows.look(ColorScheme.LIGHT, width), asked -> asked.startsWith(base));
                    assertThat(Windows.sideways(page)).as(path + " at " + width).isZero();
                    assertThat(page.locator("img").count()).isZero();
                    assertThat(page.locator("main script").count()).isZero();
                    assertThat(page.evaluate("window.ran")).isNull();
                    assertThat(page.locator("main").innerText()).doesNotContain("\u202E", "\u2066", "\u200F");
                    if (width == 360) {
                        assertThat(Axe.violations(page)).as(path).isEmpty();
                    }
                    Windows.picture(page, "hostile-" + paths.indexOf(path) + "-" + width);
                }
            }
            assertThat(served.failures).isEmpty();
            assertThat(windows.complaints()).isEmpty();
        }
    }
}
