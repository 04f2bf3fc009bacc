package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import nu.validator.client.EmbeddedValidator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.ClimbRecord;
import tracksoak.report.record.ClimbSketch;

class ClimbPageTest {

    static Stream<ClimbRecord> climbs() {
        return Stream.of(ClimbSketch.found(), ClimbSketch.hostile());
    }

    /** HTML Living Standard, as checked by the Nu Html Checker. */
    @ParameterizedTest
    @MethodSource("climbs")
    void isValidHtml(ClimbRecord record) throws Exception {
        EmbeddedValidator validator = new EmbeddedValidator();
        validator.setOutputFormat(EmbeddedValidator.OutputFormat.JSON);
        String said = validator.validate(
                new ByteArrayInputStream(ClimbPage.render(record).getBytes(StandardCharsets.UTF_8)));
        List<String> errors = new ObjectMapper()
                .readTree(said).findParents("message").stream()
                        .filter(message -> message.path("type").asText().equals("error"))
                        .map(JsonNode::toString)
                        .toList();
        assertThat(errors).isEmpty();
    }

    @Test
    void saysTheAnswerFirstAndEveryLookAfterIt() {
        String page = ClimbPage.render(ClimbSketch.found());
        assertThat(page)
                .containsSubsequence(
                        "<h1 id=\"verdict-word\">24 tracks</h1>",
                        "24 tracks with 2× margin, 38 tracks before audio is lost.",
                        "Margin as it climbs",
                        "chart-climb",
                        "Every look, in the order they were made",
                        "39 tracks",
                        "missed lost-audio, buffer-margin, rate-margin",
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
