package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;

class BrowserSetUpTest {

    @Test
    void withoutABrowserATestIsSkippedAndSaysWhatIsMissing() {
        var result = BrowserSetUp.decide(List.of("Node", "Chromium"), false);
        assertThat(result.isDisabled()).isTrue();
        assertThat(result.getReason()).hasValueSatisfying(why -> assertThat(why).contains("Node, Chromium"));
        assertThat(BrowserSetUp.decide(List.of(), false).isDisabled()).isFalse();
    }

    @Test
    void whereATestIsRequiredAMissingBrowserIsAFailure() {
        assertThatThrownBy(() -> BrowserSetUp.decide(List.of("Chromium"), true))
                .hasMessageContaining("Chromium")
                .hasMessageContaining("CI=true");
        assertThat(BrowserSetUp.decide(List.of(), true).isDisabled()).isFalse();
    }
}
