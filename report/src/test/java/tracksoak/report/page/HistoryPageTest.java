package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.history.Histories;
import tracksoak.report.history.Past;
import tracksoak.report.record.facts.RunRecord;

/** The section that draws a drive's runs. */
class HistoryPageTest {

    private static final double[] DAYS = {0, 31, 62, 120, 151, 200, 274};
    private static final double[] FALLING = {41e6, 40.2e6, 37.5e6, 36e6, 33.1e6, 31.5e6, 27e6};

    /** A drive whose floor falls, with a run on another port in between. */
    static RunRecord latest() {
        List<RunRecord> runs = Histories.floors(DAYS, FALLING);
        return runs.get(runs.size() - 1);
    }

    static DriveHistory falling() {
        List<RunRecord> runs = new ArrayList<>(Histories.floors(DAYS, FALLING));
        var other = Histories.run(80, 38e6);
        other.linkMbps = 480.0;
        other.session = Hostile.record().session();
        runs.add(other.record());
        RunRecord latest = latest();
        return DriveHistory.of(
                latest,
                runs.stream().map(run -> Past.of(run, latest)).toList(),
                List.of("Earlier runs of this drive were found by maker, model and serial number."));
    }

    @Test
    void showsSentenceCurvesChangesAndRuns() {
        String page = ReportPage.render(latest(), falling());
        assertThat(page)
                .containsSubsequence(
                        "id=\"history\"",
                        "The floor fell from 41 MB/s to 27 MB/s in nine months",
                        "found by maker, model and serial number",
                        "id=\"chart-history-floor\"",
                        "Run on",
                        "2025-05-14",
                        "What changed, over the runs that can be compared",
                        "31.5 MB/s to 41 MB/s (36.8 MB/s)",
                        "All runs of this drive, the latest last",
                        "port USB at 480 Mbit/s");
        // the curve: seven runs, its limit of 2 × 4.608 MB/s, and the fitted line's ends by SciPy's theilslopes
        assertThat(page).contains("\"xKind\":\"date\"", "\"y\":[41.0,40.2,37.5,36.0,33.1,31.5,27.0]", "\"y\":9.216");
        assertThat(page).contains("\"y\":[42.131,", ",28.131]");
    }

    /** The verdict does not change, and who reads no further must know it. */
    @Test
    void theFirstScreenSaysThatADriveAges() {
        String page = ReportPage.render(latest(), falling());
        assertThat(page.substring(0, page.indexOf("id=\"history\"")))
                .contains("Over time: The floor fell from 41 MB/s");
        double[] even = {41e6, 40e6, 41e6, 40e6, 41e6, 40e6, 40.5e6};
        List<RunRecord> runs = Histories.floors(DAYS, even);
        String sound = ReportPage.render(runs.get(6), Histories.seenByLast(runs));
        assertThat(sound).contains("id=\"history\"").doesNotContain("Over time: ");
        even[6] = 25e6;
        runs = Histories.floors(DAYS, even);
        String apart = ReportPage.render(runs.get(6), Histories.seenByLast(runs));
        assertThat(apart).contains("Over time: This run is the worst so far, by more");
    }

    @Test
    void aPageWithoutHistoryHasNoSuchSection() {
        assertThat(ReportPage.render(latest())).doesNotContain("id=\"history\"");
    }

    /** HTML Living Standard, as checked by the Nu Html Checker; the session in it has a hostile name. */
    @Test
    void isValidHtml() throws Exception {
        String page = ReportPage.render(latest(), falling());
        assertThat(HtmlCheck.errors(page)).isEmpty();
        assertThat(page).doesNotContain("<img");
    }
}
