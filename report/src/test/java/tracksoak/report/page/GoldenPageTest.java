package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Objects;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.parallel.Isolated;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.ClimbSketch;
import tracksoak.report.record.DrillSketch;

/**
 * The page, word for word, on computers that write numbers and capitals in other ways. After a wanted change: {@code
 * -Dgolden.bless=true} writes the files anew.
 */
@Isolated("sets the locale of the whole process")
class GoldenPageTest {

    private static final Path SOURCES = Path.of("src/test/resources/golden");

    static Stream<Arguments> pages() {
        return Stream.of("de-DE", "tr-TR")
                .flatMap(locale -> Stream.of(
                        page(locale, "pass", () -> ReportPage.render(Showcase.pass())),
                        page(locale, "fail", () -> ReportPage.render(Showcase.fail())),
                        page(locale, "interrupted", () -> ReportPage.render(Showcase.interrupted())),
                        page(locale, "misplaced", () -> ReportPage.render(Showcase.misplaced())),
                        page(locale, "hostile", () -> ReportPage.render(Hostile.record())),
                        page(locale, "whole-show", () -> ReportPage.render(WholeShow.recorded())),
                        page(locale, "mixdown", () -> ReportPage.render(WholeShow.mixedDown())),
                        page(
                                locale,
                                "history",
                                () -> ReportPage.render(HistoryPageTest.latest(), HistoryPageTest.falling())),
                        page(locale, "climb", () -> ClimbPage.render(ClimbSketch.found())),
                        page(locale, "climb-hostile", () -> ClimbPage.render(ClimbSketch.hostile())),
                        page(
                                locale,
                                "drill",
                                () -> DrillPage.render(DrillSketch.twoTracks().record()))));
    }

    private static Arguments page(String locale, String name, Supplier<String> page) {
        return Arguments.of(locale, name, page);
    }

    @ParameterizedTest(name = "{1} in {0}")
    @MethodSource("pages")
    void staysAsItIs(String locale, String name, Supplier<String> rendered) throws IOException {
        Locale before = Locale.getDefault();
        String page;
        try {
            Locale.setDefault(Locale.forLanguageTag(locale));
            page = withoutBulk(rendered.get());
        } finally {
            Locale.setDefault(before);
        }
        if (Boolean.getBoolean("golden.bless")) {
            Files.createDirectories(SOURCES);
            Files.writeString(SOURCES.resolve(name + ".html"), page);
        }
        assertThat(page).isEqualTo(Boolean.getBoolean("golden.bless") ? page : golden(name));
    }

    /** Without styles, scripts, curves and the record, which have tests of their own and may differ by compressor. */
    private static String withoutBulk(String page) {
        return page.replaceAll("(?s)<style>.*?</style>", "<style>…</style>")
                .replaceAll("(?s)(<script[^>]*>).*?</script>", "$1…</script>")
                .replaceAll("(?s)(<textarea[^>]*>).*?</textarea>", "$1…</textarea>")
                .replaceAll("sha256-[^&']*", "sha256-…")
                .replaceAll(">[^<>]* of JSON<", ">… of JSON<");
    }

    private static String golden(String name) throws IOException {
        try (InputStream in = Objects.requireNonNull(
                GoldenPageTest.class.getResourceAsStream("/golden/" + name + ".html"), "no golden file for " + name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
