package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.Media;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.report.record.ClimbSketch;
import tracksoak.report.record.DrillSketch;
import tracksoak.report.record.InspectionSketch;

/**
 * Pictures of every sheet as it is seen: wide, on a phone, in the dark, on paper; and the README's own. Made only where
 * {@code -Dpage.shots=FOLDER} asks for them (DEVELOPERS.md has the command); somebody has to look at them. {@code
 * -Dpage.only=fail} makes those of one sheet.
 */
@NeedsBrowser
@EnabledIfSystemProperty(named = "page.shots", matches = ".+")
class Pictures {

    private final Windows windows;

    @TempDir
    Path folder;

    Pictures(Windows windows) {
        this.windows = windows;
    }

    private static Map<String, String> sheets() {
        Map<String, String> sheets = new LinkedHashMap<>();
        sheets.put("pass", ReportPage.render(Showcase.pass()));
        sheets.put("fail", ReportPage.render(Showcase.fail()));
        sheets.put("no-verdict", ReportPage.render(Showcase.interrupted()));
        sheets.put("misplaced", ReportPage.render(Showcase.misplaced()));
        sheets.put("whole-show", ReportPage.render(WholeShow.recorded()));
        sheets.put("mixdown", ReportPage.render(WholeShow.mixedDown()));
        sheets.put("hostile", ReportPage.render(Hostile.record()));
        sheets.put("history", ReportPage.render(HistoryPageTest.latest(), HistoryPageTest.falling()));
        sheets.put("climb", ClimbPage.render(ClimbSketch.found()));
        sheets.put("drill", DrillPage.render(DrillSketch.twoTracks().record()));
        sheets.put("inspection", InspectPage.render(InspectionSketch.ofTwoTracks()));
        sheets.put("recorder", RecorderPage.render(RecorderPageTest.sheet()));
        return sheets;
    }

    /** The first screen of a report, as the README shows it. */
    @Test
    void ofTheReadme() throws IOException {
        Path file = Files.writeString(folder.resolve("readme.html"), ReportPage.render(Showcase.fail()));
        Page page = open(file, ColorScheme.LIGHT, 1100);
        byte[] picture = page.screenshot(new Page.ScreenshotOptions().setPath(Path.of("../docs/report.png")));
        assertThat(picture).isNotEmpty();
    }

    @Test
    void ofEverySheet() throws IOException {
        Map<String, String> sheets = sheets();
        Files.createDirectories(Path.of(System.getProperty("page.shots")));
        sheets.keySet().removeIf(name -> !name.startsWith(System.getProperty("page.only", "")));
        for (Map.Entry<String, String> sheet : sheets.entrySet()) {
            Path file = Files.writeString(folder.resolve(sheet.getKey() + ".html"), sheet.getValue());
            picture(file, sheet.getKey() + "-wide", ColorScheme.LIGHT, 1100, false);
            picture(file, sheet.getKey() + "-dark", ColorScheme.DARK, 1100, true);
            picture(file, sheet.getKey() + "-phone", ColorScheme.LIGHT, 390, false);
            picture(file, sheet.getKey() + "-phone-open", ColorScheme.LIGHT, 390, true);
            Page page = open(file, ColorScheme.LIGHT, 688);
            page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
            page.evaluate("dispatchEvent(new Event('beforeprint'))");
            Windows.picture(page, sheet.getKey() + "-paper");
            byte[] paper = page.pdf(new Page.PdfOptions().setFormat("A4").setPreferCSSPageSize(true));
            Files.write(Path.of(System.getProperty("page.shots"), sheet.getKey() + ".pdf"), paper);
        }
        assertThat(Path.of(System.getProperty("page.shots"))).isNotEmptyDirectory();
    }

    private Page picture(Path file, String name, ColorScheme scheme, int width, boolean unfolded) {
        Page page = open(file, scheme, width);
        if (unfolded) {
            page.locator("#unfold").click();
        }
        Windows.picture(page, name);
        return page;
    }

    private Page open(Path file, ColorScheme scheme, int width) {
        return windows.open(file.toUri().toString(), Windows.look(scheme, width), asked -> true);
    }
}
