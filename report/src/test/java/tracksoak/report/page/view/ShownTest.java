package tracksoak.report.page.view;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ShownTest {

    @ParameterizedTest
    @CsvSource({
        "'stick\u202Ecod', 'stick[U+202E]cod'",
        "'a\u2066b\u2069c', 'a[U+2066]b[U+2069]c'",
        "'one\ntwo', 'one[U+000A]two'",
        "'bell\u0007', 'bell[U+0007]'",
        "'\u200Bnothing', '[U+200B]nothing'",
        "'Bühnenstick №5 – 東', 'Bühnenstick №5 – 東'"
    })
    void showsWhatWouldHide(String outside, String shown) {
        assertThat(Shown.of(outside).text()).isEqualTo(shown);
        assertThat(Shown.clean(outside)).isEqualTo(shown);
    }

    @Test
    void cutsWhatIsLongAndKeepsTheWhole() {
        Shown shown = Shown.of("x".repeat(10_000));
        assertThat(shown.cut()).isTrue();
        assertThat(shown.text()).hasSizeLessThan(210).endsWith("…");
        assertThat(shown.full()).hasSize(10_000);
    }

    @Test
    void keepsAWholeSentenceButNoFlood() {
        assertThat(Shown.whole("y".repeat(600)).cut()).isFalse();
        assertThat(Shown.whole("y".repeat(601)).text()).hasSize(601).endsWith("…");
    }

    @Test
    void neverSplitsACharacterInTwo() {
        String stars = "\uD83C\uDFAD".repeat(700);
        assertThat(Shown.whole(stars).full()).isEqualTo(stars);
        assertThat(Shown.whole(stars).text()).isEqualTo("\uD83C\uDFAD".repeat(600) + "…");
        assertThat(Shown.clean("half \uD83C")).isEqualTo("half [U+D83C]");
    }

    @Test
    void saysUnknownForNothing() {
        assertThat(Shown.orUnknown(null).text()).isEqualTo("unknown");
        assertThat(Shown.orUnknown("  ").text()).isEqualTo("unknown");
    }
}
