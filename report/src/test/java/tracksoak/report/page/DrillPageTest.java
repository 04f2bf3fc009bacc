package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.DrillSketch;
import tracksoak.report.record.facts.drill.DrillRecord;

class DrillPageTest {

    static Stream<DrillRecord> drills() {
        DrillSketch hostile = DrillSketch.twoTracks();
        hostile.maker = Hostile.MARKUP;
        DrillSketch notBack = DrillSketch.twoTracks();
        notBack.state = DrillRecord.State.NOT_BACK;
        notBack.stateReason = Hostile.MARKUP + Hostile.HIDDEN;
        notBack.back = null;
        notBack.files.clear();
        return Stream.of(DrillSketch.twoTracks().record(), hostile.record(), notBack.record());
    }

    /** HTML Living Standard, as checked by the Nu Html Checker. */
    @ParameterizedTest
    @MethodSource("drills")
    void isValidHtml(DrillRecord record) throws Exception {
        assertThat(HtmlCheck.errors(DrillPage.render(record))).isEmpty();
    }

    @ParameterizedTest
    @MethodSource("drills")
    void keepsHostileTextInert(DrillRecord record) {
        assertThat(DrillPage.render(record)).doesNotContain("<img").doesNotContain("<b>");
    }

    @Test
    void saysTheSentenceFirstAndThenTrackByTrack() {
        DrillRecord record = DrillSketch.twoTracks().record();
        String page = DrillPage.render(record);
        assertThat(page.indexOf("10 s of audio on the worst track"))
                .isPositive()
                .isLessThan(page.indexOf("What survived"));
        assertThat(page)
                .contains("Track 1")
                .contains("Track 2")
                .contains("Recorded before the pull")
                .contains("must be repaired")
                .contains("stopped first");
        assertThat(page).contains("style=\"--share:50\"").contains("style=\"--share:90\"");
        assertThat(page).doesNotContain(">PASS<").doesNotContain(">FAIL<");
    }

    @Test
    void aDrillThatCameToNothingSaysWhy() {
        DrillSketch drill = DrillSketch.twoTracks();
        drill.state = DrillRecord.State.NOT_PULLED;
        drill.stateReason = "the drive was still there when the take ended";
        drill.pull = null;
        drill.back = null;
        drill.tracks.clear();
        drill.files.clear();
        assertThat(DrillPage.render(drill.record()))
                .contains("Nobody pulled the drive: the drive was still there when the take ended.")
                .doesNotContain("What survived");
    }
}
