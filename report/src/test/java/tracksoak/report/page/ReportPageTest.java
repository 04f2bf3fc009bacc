package tracksoak.report.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.verdict.Judge;

class ReportPageTest {

    static Stream<RunRecord> records() {
        return Stream.of(
                Showcase.pass(),
                Showcase.fail(),
                Showcase.interrupted(),
                Showcase.misplaced(),
                Hostile.record(),
                Hostile.empty(),
                Hostile.gaps(),
                WholeShow.recorded(),
                WholeShow.mixedDown(),
                judged(Showcase.fail()),
                judged(Hostile.record()));
    }

    private static RunRecord judged(RunRecord record) {
        return record.withVerdict(Judge.judge(record));
    }

    /** The chart ends at ten buffers; what the law says beyond is no figure to plan with. */
    @Test
    void aBacklogFarBeyondTheBufferIsGivenNoFigure() {
        Odds odds = OddsMaker.oneInFourHundred();
        Odds small = new Odds(
                odds.sentence(), odds.refused(), odds.showS(), 50, odds.takeS(), 0, odds.countChance(), odds.fit());
        RunRecord pass = Showcase.pass();
        assertThat(ReportPage.render(
                        pass.withVerdict(Objects.requireNonNull(pass.verdict()).with(small))))
                .contains("Once in 12 h 15 min a backlog beyond 500 ms is to be expected (95 %: beyond 500 ms);");
    }

    @Test
    void givesNoOddsBesideAudioThatIsLost() {
        RunRecord fail = Showcase.fail();
        String page = ReportPage.render(
                fail.withVerdict(Objects.requireNonNull(fail.verdict()).with(OddsMaker.oneInFourHundred())));
        assertThat(page).doesNotContain("id=\"odds\"").contains("\"odds\": {");
    }

    @Test
    void saysTheVerdictFirstAndTheEvidenceAfter() {
        assertThat(ReportPage.render(Showcase.fail()))
                .containsSubsequence(
                        "FAIL",
                        "This drive loses audio once its fast cache is full.",
                        "What to do now",
                        "Leave it at home for this session.",
                        "Criteria",
                        "5 missed, 4 met, 1 not tested",
                        "Backlog against the buffer",
                        "The evidence",
                        "Backlog in the other takes",
                        "How long writes took",
                        "Write rate in the fill",
                        "Longest stalls",
                        "2.64 s",
                        "Overruns",
                        "Close",
                        "Read-back",
                        "Drive and port",
                        "Session and its demand",
                        "Method and computer",
                        "What this does not prove",
                        "Cautions",
                        "To repeat this run",
                        "20260314",
                        "The record of this run");
    }

    @Test
    void listsWhyThereIsNoVerdictAndSaysThatThePlanWasShortened() {
        assertThat(ReportPage.render(Showcase.interrupted()))
                .containsSubsequence(
                        "NO VERDICT",
                        "Shortened plan: this does not count as a full line-check.",
                        "Why there is no verdict",
                        "A person stopped the run after 47 s of 60 s.",
                        "open: the computer",
                        "delay of the computer itself",
                        "cut short");
    }

    @Test
    void refusesARecordThatWasNeverJudged() {
        RunRecord judged = Showcase.pass();
        RunRecord record = Showcase.record(
                judged.id(), RunState.RUNNING, "", judged.plan(), judged.drive(), judged.phases(), null);
        assertThatIllegalArgumentException()
                .isThrownBy(() -> ReportPage.render(record))
                .withMessageContaining("judge it first");
    }

    @Test
    void savesThePageWholeAndLeavesNothingElse(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("report.html");
        Files.writeString(file, "an older report");
        SheetFile.write(file, ReportPage.render(Showcase.pass()));
        assertThat(file).content(StandardCharsets.UTF_8).isEqualTo(ReportPage.render(Showcase.pass()));
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactly(file);
        }
    }

    /** HTML Living Standard, as checked by the Nu Html Checker. */
    @ParameterizedTest
    @MethodSource("records")
    void isValidHtml(RunRecord record) throws Exception {
        assertThat(HtmlCheck.errors(ReportPage.render(record))).isEmpty();
    }

    /** Content Security Policy Level 3, section 2.3.1: the hash is that of the text between the tags. */
    @Test
    void letsItsOwnScriptsRunAndNoOther() throws Exception {
        String page = ReportPage.render(Showcase.pass());
        Matcher scripts = Pattern.compile("(?s)<script>(.*?)</script>").matcher(page);
        int found = 0;
        while (scripts.find()) {
            found++;
            byte[] digest =
                    MessageDigest.getInstance("SHA-256").digest(scripts.group(1).getBytes(StandardCharsets.UTF_8));
            assertThat(page).contains("sha256-" + Base64.getEncoder().encodeToString(digest));
        }
        assertThat(found).isEqualTo(2);
        assertThat(page)
                .contains("default-src &#39;none&#39;;")
                .doesNotContain("unsafe-eval")
                .doesNotContain(" src=\"");
    }

    /** 1 block of 3 was unreadable, and the others were not read. */
    @Test
    void tellsWhatReadBackDidNotReadBesideWhatWasBad() {
        assertThat(ReportPage.render(Hostile.record()))
                .contains("No block came back as written", "1 block of 3, 2 not read");
    }

    @Test
    void keepsHostileTextInert() {
        String page = ReportPage.render(Hostile.record());
        String shown = page.replaceAll("(?s)<textarea.*?</textarea>", "");
        assertThat(page).doesNotContain("<img").doesNotContain("<b>").doesNotContain("onerror=alert(1)>");
        assertThat(page.split("</script>", -1)).hasSize(4);
        assertThat(page.split("</textarea>", -1)).hasSize(2);
        assertThat(shown).contains("[U+202E]", "[U+0007]", "[U+001B]", "[U+200B]", "[U+0000]", "[U+FEFF]");
        assertThat(shown.codePoints().filter(ReportPageTest::invisible).count())
                .as("invisible characters outside the record itself")
                .isZero();
        assertThat(shown).doesNotContain(">" + "W".repeat(700)).contains("title=\"" + Hostile.LONG + "\"");
    }

    @Test
    void keepsTwelveHoursToAPageThatOpens() {
        byte[] page = ReportPage.render(Showcase.twelveHours()).getBytes(StandardCharsets.UTF_8);
        assertThat(page).hasSizeLessThan(5_000_000);
    }

    @ParameterizedTest
    @MethodSource("records")
    void carriesTheRecordItself(RunRecord record) {
        String page = ReportPage.render(record);
        int from = page.indexOf('>', page.indexOf("<textarea")) + 1;
        String carried = page.substring(from, page.indexOf("</textarea>"))
                .replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&#34;", "\"")
                .replace("&#39;", "'")
                .replace("&amp;", "&");
        assertThat(carried).isEqualTo(RecordJson.write(record)).matches("\\p{ASCII}*");
        assertThat(RecordJson.read(carried.getBytes(StandardCharsets.UTF_8))).isEqualTo(record);
    }

    private static boolean invisible(int point) {
        return point != '\n'
                && (Character.getType(point) == Character.FORMAT || Character.getType(point) == Character.CONTROL);
    }
}
