package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.ClimbSketch;
import tracksoak.report.record.facts.ClimbRecord;

class ClimbPageTest {

    static Stream<ClimbRecord> climbs() {
        return Stream.of(ClimbSketch.found(), ClimbSketch.hostile());
    }

    /** HTML Living Standard, as checked by the Nu Html Checker. */
    @ParameterizedTest
    @MethodSource("climbs")
    void isValidHtml(ClimbRecord record) throws Exception {
        assertThat(HtmlCheck.errors(ClimbPage.render(record))).isEmpty();
    }

    @Test
    void saysTheAnswerFirstAndEveryLookAfterIt() {
        String page = ClimbPage.render(ClimbSketch.found());
        assertThat(page)
                .containsSubsequence(
                        "<h1 id=\"verdict-word\">24 tracks</h1>",
                        "24 tracks with 2× margin, 38 tracks before audio is lost.",
                        "Margin over the number of tracks",
                        "chart-climb",
                        "Every try, in the order they were made",
                        "39 tracks",
                        "missed lost audio, buffer margin, rate margin",
                        "sound-check",
                        "What this does not prove");
        // the curves: takes only, rising by tracks; marks: one sound-check that held, one that did not
        assertThat(page)
                .contains("\"xKind\":\"tracks\"", "\"x\":[24.0,25.0,38.0,39.0]", "\"y\":[2.02,1.94,1.27,1.24]")
                .contains("{\"style\":\"held\",\"x\":24.0,\"y\":2.0}", "{\"style\":\"overrun\",\"x\":38.0,\"y\":1.1}");
        assertThat(page).doesNotContain(">PASS<").doesNotContain("Shortened climb");
    }

    @Test
    void keepsHostileTextInert() {
        String page = ClimbPage.render(ClimbSketch.hostile());
        assertThat(page).doesNotContain("<img").doesNotContain("\u202e").contains("NO ANSWER", "there is no curve");
        assertThat(page.split("</script>", -1)).hasSize(4);
    }

    @Test
    void aClimbThatGoesOnHasNoPage() {
        assertThatThrownBy(() -> ClimbPage.render(ClimbSketch.begun()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("no result yet");
    }
}
