package tracksoak.report.roster.web.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.NotFoundException;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import com.microsoft.playwright.Browser.NewContextOptions;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.Media;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tracksoak.report.page.NeedsBrowser;
import tracksoak.report.page.Windows;
import tracksoak.report.record.RunSketch;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.web.Dozen;
import tracksoak.report.roster.web.Served;
import tracksoak.report.roster.web.server.RosterSettings;

/** Labels as they come out of a printer: every size, with the longest tag and a long address. */
@NeedsBrowser
class LabelsInBrowserTest {

    private static final String ADDRESS = "https://roster.lantern-wagon-tour.example:8432";

    private static final String LONG_NAME = "harvest-fair-with-the-brass-band";

    /** Dots per inch of a plain thermal printer for labels, 8 per mm: common practice, no source. */
    private static final double DPI = 203;

    private static final double CSS_DPI = 96;
    private static final double POINTS_PER_MM = 72 / 25.4;
    private static final double PX_PER_MM = CSS_DPI / 25.4;

    /** What of a label is not wholly on it, or lies on its code. */
    private static final String BEYOND = """
            label => {
              const paper = label.getBoundingClientRect(), code = label.querySelector('.qr').getBoundingClientRect();
              return [...label.querySelectorAll('*')].filter(it => it.tagName !== 'use').map(it => [it, it.getBoundingClientRect()])
                .filter(([it, box]) => box.left < paper.left - .5 || box.right > paper.right + .5 || box.top < paper.top - .5
                  || box.bottom > paper.bottom + .5 || (it.closest('.text') && box.left < code.right)
                  || (it.scrollWidth > it.clientWidth + 1 && it.clientWidth > 0)
                  || (it.scrollHeight > it.clientHeight + 2 && getComputedStyle(it).overflow === 'hidden'))
                .map(([it, box]) => it.outerHTML.slice(0, 90) + JSON.stringify(box));
            }
            """;

    @TempDir
    static Path folder;

    private static @Nullable Served served;

    private final Windows windows;

    LabelsInBrowserTest(Windows windows) {
        this.windows = windows;
    }

    @BeforeAll
    static void open() {
        served = new Served(
                folder,
                settings -> new RosterSettings(
                        "127.0.0.1", settings.port(), null, null, false, true, List.of(), ADDRESS, settings.limits()));
        Dozen.fill(served);
        served.desk.enter(Dozen.stick(13, 1).signed(served.key), "W".repeat(24));
        served.desk.enter(
                Dozen.stick(14, 1).session(RunSketch.session(LONG_NAME, 32)).signed(served.key), "CASE-14.LEFT");
        others(served);
    }

    /** So many that they need a second sheet. */
    private static void others(Served roster) {
        for (int number = 21; number <= 33; number++) {
            roster.desk.tag(DriveIdentity.of(Dozen.stick(number, 0).record().drive()), "S-0" + number, "new");
        }
    }

    @AfterAll
    static void close() {
        if (served != null) {
            served.close();
            assertThat(served.failures).isEmpty();
        }
    }

    @AfterEach
    void leave() {
        windows.close();
        assertThat(windows.complaints()).isEmpty();
    }

    private static Served served() {
        return Objects.requireNonNull(served);
    }

    private Page print(LabelSize size) {
        String base = "http://127.0.0.1:" + served().server.port() + "/";
        Page page = windows.open(
                base + "labels?size=" + size.code(),
                new NewContextOptions().setViewportSize(794, 1123).setDeviceScaleFactor(DPI / CSS_DPI),
                asked -> asked.startsWith(base));
        page.emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        return page;
    }

    /** The very label, at the resolution of the printer, is read by a decoder that is not ours (ISO/IEC 18004; ZXing). */
    @ParameterizedTest
    @EnumSource(LabelSize.class)
    void everythingIsOnTheLabelAndItsCodeLeadsToTheDrive(LabelSize size) throws IOException, ReaderException {
        Page page = print(size);
        List<String> expected = served().roster.board(BoardQuery.all(null)).rows().stream()
                .map(row -> ADDRESS + "/drives/" + row.drive().id())
                .toList();
        List<String> read = new ArrayList<>();
        for (Locator label : page.locator(".label").all()) {
            // a session's name may be cut short, with an ellipsis, on the smallest ones
            assertThat((List<?>) label.evaluate(BEYOND))
                    .as(label.innerText())
                    .filteredOn(
                            it -> !it.toString().startsWith("<p class=\"session\"><bdi class=\"long\">" + LONG_NAME))
                    .isEmpty();
            read.add(decoded(label.screenshot()));
        }
        assertThat(read).containsExactlyElementsOf(expected);
        Windows.picture(page, "labels-" + size.code());
    }

    /** Each label of a roll is a page of its own size; those on sheets are 24 to an A4. */
    @ParameterizedTest
    @EnumSource(LabelSize.class)
    void thePagesOfPaperAreAsLargeAsTheLabels(LabelSize size) throws IOException {
        Page page = print(size);
        byte[] pdf = page.pdf(new Page.PdfOptions().setPreferCSSPageSize(true).setPrintBackground(true));
        String shots = System.getProperty("page.shots");
        if (shots != null) {
            Files.write(Path.of(shots).resolve("labels-" + size.code() + ".pdf"), pdf);
        }
        boolean sheet = size == LabelSize.SHEET_A4;
        int labels = page.locator(".label").count();
        List<double[]> pages = pages(pdf);
        assertThat(pages).hasSize(sheet ? (labels + 23) / 24 : labels);
        String[] mm = sheet ? new String[] {"210", "297"} : size.code().split("x", -1);
        for (double[] paper : pages) {
            assertThat(paper[0]).isCloseTo(Double.parseDouble(mm[0]) * POINTS_PER_MM, within(1.0));
            assertThat(paper[1]).isCloseTo(Double.parseDouble(mm[1]) * POINTS_PER_MM, within(1.0));
        }
    }

    /** Three by eight labels of 70 by 37 mm fill an A4 sheet (ISO 216: 210 by 297 mm) but for 1 mm, half of it above. */
    @Test
    void labelsLieWhereTheSheetIsCut() {
        List<Locator> labels = print(LabelSize.SHEET_A4).locator(".label").all();
        for (int i = 0; i < 24; i++) {
            BoundingBox box = labels.get(i).boundingBox();
            assertThat(box.x / PX_PER_MM).as("left of label " + i).isCloseTo(Math.floorMod(i, 3) * 70.0, within(0.1));
            assertThat(box.y / PX_PER_MM)
                    .as("top of label " + i)
                    .isCloseTo(0.5 + Math.floorDiv(i, 3) * 37.0, within(0.1));
            assertThat(box.width / PX_PER_MM).isCloseTo(70, within(0.1));
            assertThat(box.height / PX_PER_MM).isCloseTo(37, within(0.1));
        }
    }

    /** Width and height of each page, in points (ISO 32000-1, 7.7.3.3). */
    private static List<double[]> pages(byte[] pdf) {
        Matcher box = Pattern.compile("/MediaBox\\s*\\[\\s*0\\s+0\\s+([0-9.]+)\\s+([0-9.]+)\\s*]")
                .matcher(new String(pdf, StandardCharsets.ISO_8859_1));
        List<double[]> pages = new ArrayList<>();
        while (box.find()) {
            pages.add(new double[] {Double.parseDouble(box.group(1)), Double.parseDouble(box.group(2))});
        }
        return pages;
    }

    private static String decoded(byte[] png) throws IOException, ReaderException {
        BufferedImage image = ImageIO.read(new ByteArrayInputStream(png));
        int[] pixels = image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth());
        BinaryBitmap bitmap = new BinaryBitmap(
                new HybridBinarizer(new RGBLuminanceSource(image.getWidth(), image.getHeight(), pixels)));
        try {
            return new QRCodeReader()
                    .decode(bitmap, Map.of(DecodeHintType.TRY_HARDER, true))
                    .getText();
        } catch (NotFoundException e) {
            return "no code is found on it";
        }
    }
}
