package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import tracksoak.report.record.InspectionSketch;

class InspectPageTest {

    @Test
    void theVerdictItsSecondAndEveryTrackAreOnThePage() {
        String page = InspectPage.render(InspectionSketch.ofTwoTracks());

        assertThat(page)
                .contains("<title>FAIL: recording SHOW &lt;7&gt;</title>", "Recording sheet")
                .contains("TR02: 1 sample (0.02 ms) of the test signal is missing at 0:12:31.250.")
                .contains("172,799,999", "1:00:00.000")
                .contains("whole, 0:00:00.500 to 0:59:59.500, to the sample", "1 break, 0:00:00.500")
                .contains("have a listen", "Unmounted cleanly", "every file holds one track", "3 other files")
                .doesNotContain("SHOW <7>", ">null<", ">NaN");
    }
}
