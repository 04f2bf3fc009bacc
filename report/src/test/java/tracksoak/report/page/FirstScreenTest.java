package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a sound engineer sees without touching anything, from a small phone to a wide desk. */
@NeedsBrowser
class FirstScreenTest {

    private static final List<Integer> WIDTHS = List.of(320, 390, 768, 1280);

    /** Every line of text of the first screen with its box, in reading order. */
    private static final String TEXTS = """
            () => [...document.querySelectorAll(
                '.letterhead .brand, .stamp h1, .drive, .sentence, .advice, .warning, .reasons li, .line .name, .why, .criteria > li > .asked, .first h3, .first figcaption p')]
              .map(it => ({ it, box: it.getBoundingClientRect() }))
              .map(({ it, box }) => ({ text: it.innerText.replace(/\\s+/g, ' ').trim(), left: box.left, right: box.right,
                  top: box.top, bottom: box.bottom, cut: it.scrollWidth > it.clientWidth + 1 || it.scrollHeight > it.clientHeight + 2 }))
            """;

    /** Pairs of the texts that lie on each other. */
    private static final String OVERPRINTED = """
            () => {
              const all = [...document.querySelectorAll('.stamp h1, .drive, .sentence, .advice, .line .name, .line .margin, .line .result, .why, .asked, .first h3, .first figcaption p, .key li, .readout')]
                .filter(it => it.checkVisibility()).map(it => ({ it, box: it.getBoundingClientRect() }));
              const pairs = [];
              all.forEach((a, i) => all.slice(i + 1).forEach(b => {
                if (!a.it.contains(b.it) && !b.it.contains(a.it) && a.box.left < b.box.right - 1 && b.box.left < a.box.right - 1
                    && a.box.top < b.box.bottom - 1 && b.box.top < a.box.bottom - 1) pairs.push(a.it.textContent + ' / ' + b.it.textContent);
              }));
              return pairs;
            }
            """;

    private final Windows windows;

    @TempDir
    Path folder;

    FirstScreenTest(Windows windows) {
        this.windows = windows;
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({"pass", "fail", "interrupted"})
    void saysTheSameAtEveryWidthAndCutsNothing(String name) throws IOException {
        Path file = Files.writeString(folder.resolve("sheet.html"), sheet(name));
        Page page = windows.open(file.toUri().toString(), Windows.look(ColorScheme.LIGHT, 1280), asked -> true);
        Map<Integer, List<String>> said = new TreeMap<>();
        for (int width : WIDTHS) {
            page.setViewportSize(width, width < 700 ? 844 : 900);
            page.waitForFunction("innerWidth === " + width);
            List<Map<String, Object>> texts = texts(page);
            said.put(width, texts.stream().map(it -> (String) it.get("text")).toList());
            assertThat(texts).as("at %d px", width).allSatisfy(it -> {
                assertThat((String) it.get("text")).isNotBlank();
                assertThat(it.get("cut")).as("%s is cut", it.get("text")).isEqualTo(false);
                assertThat(number(it, "left")).as("%s", it.get("text")).isNotNegative();
                assertThat(number(it, "right")).as("%s", it.get("text")).isLessThanOrEqualTo(width);
            });
            assertThat((List<?>) page.evaluate(OVERPRINTED))
                    .as("printed over each other at %d px", width)
                    .isEmpty();
            assertThat(Windows.sideways(page)).isZero();
            assertThat(bottom(texts, "What to do now"))
                    .as("what to do stands on the first screen of %d px", width)
                    .isLessThan(844);
        }
        assertThat(said.values()).allSatisfy(texts -> assertThat(texts).isEqualTo(said.get(1280)));
        assertThat(windows.complaints()).isEmpty();
    }

    /** Whether, why not, what to do: without scrolling, on a phone of the usual size; on a desk the worst take besides. */
    @Test
    void aPhoneShowsWhetherWhyNotAndWhatToDoAtOnce() throws IOException {
        Path file = Files.writeString(folder.resolve("sheet.html"), sheet("fail"));
        Page page = windows.open(
                file.toUri().toString(), Windows.look(ColorScheme.LIGHT, 390).setViewportSize(390, 844), asked -> true);
        List<Map<String, Object>> texts = texts(page);
        for (String text : List.of("FAIL", "This drive loses audio", "What to do now", "Lost audio", "Buffer margin")) {
            assertThat(bottom(texts, text)).as(text).isLessThan(844);
        }
        page.setViewportSize(1280, 900);
        page.waitForFunction("document.querySelector('.first canvas').getBoundingClientRect().bottom < 900");
    }

    private static String sheet(String name) {
        return switch (name) {
            case "pass" -> ReportPage.render(Showcase.pass());
            case "fail" -> ReportPage.render(Showcase.fail());
            default -> ReportPage.render(Showcase.interrupted());
        };
    }

    @SuppressWarnings("unchecked")
    private static List<Map<String, Object>> texts(Page page) {
        return (List<Map<String, Object>>) page.evaluate(TEXTS);
    }

    private static double bottom(List<Map<String, Object>> texts, String beginning) {
        return texts.stream()
                .filter(it -> String.valueOf(it.get("text")).startsWith(beginning))
                .mapToDouble(it -> number(it, "bottom"))
                .findFirst()
                .orElseThrow(() -> new AssertionError(beginning + " is not on the page"));
    }

    private static double number(Map<String, Object> text, String key) {
        return ((Number) Objects.requireNonNull(text.get(key), key)).doubleValue();
    }
}
