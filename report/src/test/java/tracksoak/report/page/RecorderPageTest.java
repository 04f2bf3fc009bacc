package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import tracksoak.report.page.view.Lanes;
import tracksoak.report.page.view.Shown;

class RecorderPageTest {

    static final String JSON = "{\"schema\": \"tracksoak/stand-in-learn/1\"}";
    private static final String HOSTILE = "<script>alert(1)</script>\u202e.WAV";

    /** A recorder of two tracks, one of them with a name that is meant to do harm. */
    static RecorderPage.Sheet sheet() {
        Lanes lanes = new Lanes(
                "What was written when",
                Shown.whole("Two seconds."),
                List.of(Shown.of("T01.WAV"), Shown.of(HOSTILE)),
                2,
                List.of(
                        new Lanes.Mark(0, "audio", 0.5, 0.25),
                        new Lanes.Mark(1, "header", 1, 0),
                        new Lanes.Mark(-1, "stop", 1.5, 9)));
        return new RecorderPage.Sheet(
                "3f2a",
                "tracksoak test",
                JSON,
                "2026-11-28T20:00:00Z",
                "It writes 2 files.",
                List.of("The file system contradicts itself: " + HOSTILE + " ends early."),
                List.of(
                        List.of("Chunk", "65.5 kB", "100 % of " + HOSTILE),
                        List.of("Flush", "every 10 s", "36 of them, 9.98 to 10.02 s apart")),
                true,
                List.of("It held 1.8 s."),
                List.of("Differs: Chunk: 65.5 kB here, 131 kB there."),
                lanes);
    }

    @Test
    void drawsThePatternAndEscapesWhatComesFromOutside() throws Exception {
        String page = RecorderPage.render(sheet());

        assertThat(page)
                .contains("<rect class=\"mark-audio\" x=\"200.0\" y=\"18\" width=\"100.0\" height=\"12\">")
                .contains("<rect class=\"mark-header\" x=\"400.0\" y=\"2\" width=\"2.0\" height=\"12\">")
                .contains("<rect class=\"mark-stop\" x=\"600.0\" y=\"0\" width=\"200.0\" height=\"32\">")
                .contains("The file system contradicts itself: ")
                .contains("It held 1.8 s.")
                .contains("Differs: Chunk: 65.5 kB here, 131 kB there.")
                .doesNotContain("<script>alert")
                .doesNotContain("\u202e");
        assertThat(HtmlCheck.errors(page)).isEmpty();
    }
}
