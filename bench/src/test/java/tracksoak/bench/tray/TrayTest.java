package tracksoak.bench.tray;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tracksoak.bench.tray.LiveState.Stage;
import tracksoak.bench.tray.RunShelf.Sheet;

/** What is asked again, and what is gone on with; nothing is really started. */
class TrayTest {

    private static final String TRAY = "f".repeat(32);
    private static final String GONE_PID = "4194304";

    @TempDir
    Path folder;

    private final AtomicInteger ids = new AtomicInteger();
    private long nowMs = 1_000_000;
    private RunShelf shelf = new RunShelf(Path.of("unset"), () -> nowMs);
    private Tray tray = new Tray(shelf, new Started(), () -> nowMs, this::id);

    /** Starts nothing. */
    private static final class Started extends RunProcess {
        private Started() {
            super(java.util.Map.of());
        }

        @Override
        public void start(RunOrder order, Path run) {}
    }

    @BeforeEach
    void build() {
        shelf = new RunShelf(folder, () -> nowMs);
        tray = new Tray(shelf, new Started(), () -> nowMs, this::id);
    }

    private String id() {
        return String.format(java.util.Locale.ROOT, "%032x", ids.incrementAndGet());
    }

    private String put(String drive, String... words) throws IOException {
        nowMs++;
        String id = id();
        tray.start(new RunOrder(
                RunOrder.SCHEMA,
                id,
                TRAY,
                "",
                nowMs,
                List.of(words),
                drive,
                "/media/" + drive,
                false,
                "trio-8",
                "line-check",
                "",
                folder.resolve(drive).toString(),
                List.of(),
                null,
                null,
                List.of()));
        return id;
    }

    private void state(String id, Stage stage, long workedMs, long saidMs, String outcome) throws IOException {
        state(id, stage, workedMs, saidMs, outcome, false);
    }

    private void state(String id, Stage stage, long workedMs, long saidMs, String outcome, boolean disturbed)
            throws IOException {
        state(id, stage, workedMs, saidMs, outcome, disturbed, false);
    }

    private void state(
            String id, Stage stage, long workedMs, long saidMs, String outcome, boolean disturbed, boolean failedAlone)
            throws IOException {
        state(id, stage, workedMs, saidMs, outcome, "", disturbed, failedAlone);
    }

    private void state(
            String id,
            Stage stage,
            long workedMs,
            long saidMs,
            String outcome,
            String sentence,
            boolean disturbed,
            boolean failedAlone)
            throws IOException {
        long pid = stage == Stage.OVER ? 1 : Long.parseLong(GONE_PID);
        LiveState state = new LiveState(
                LiveState.SCHEMA,
                pid,
                1,
                saidMs,
                workedMs,
                stage,
                "",
                "",
                null,
                List.of(),
                0,
                List.of(),
                outcome,
                sentence,
                "",
                disturbed,
                failedAlone,
                "");
        Files.write(
                folder.resolve("runs").resolve(id).resolve("state.json"), new ObjectMapper().writeValueAsBytes(state));
    }

    @Test
    void whatMissedBesideAnotherIsAskedAgainAloneAndOnce() throws IOException {
        String good = put("good", "qualify", "/media/good");
        String bad = put("bad", "qualify", "/media/bad");
        state(good, Stage.OVER, 1_000, 9_000, "PASS");
        state(bad, Stage.OVER, 2_000, 8_000, "FAIL");
        assertThat(tray.over(TRAY)).isFalse();
        nowMs++;
        tray.lookAfter(TRAY);
        List<Sheet> runs = tray.runs(TRAY);
        assertThat(runs).hasSize(2);
        RunOrder again = runs.get(1).order();
        assertThat(again.again()).isEqualTo(bad);
        assertThat(again.words()).containsExactly("qualify", "/media/bad", "--alone");
        assertThat(again.folder())
                .startsWith(folder.resolve("bad").toString())
                .isNotEqualTo(folder.resolve("bad").toString());
        state(again.id(), Stage.OVER, 20_000, 30_000, "FAIL");
        assertThat(tray.over(TRAY)).isTrue();
        tray.lookAfter(TRAY);
        assertThat(shelf.all()).hasSize(3);
    }

    @Test
    void whatOtherProgramsDisturbedOnItsBusIsAskedAgainAloneAndOnce() throws IOException {
        String one = put("one", "qualify", "/media/one");
        state(one, Stage.OVER, 1_000, 2_000, "NO VERDICT", true);
        assertThat(tray.over(TRAY)).isFalse();
        nowMs++;
        tray.lookAfter(TRAY);
        RunOrder again = tray.runs(TRAY).get(0).order();
        assertThat(again.again()).isEqualTo(one);
        assertThat(again.words()).endsWith("--alone");
        state(again.id(), Stage.OVER, 3_000, 4_000, "NO VERDICT", true);
        tray.lookAfter(TRAY);
        assertThat(shelf.all()).hasSize(2);
        assertThat(tray.over(TRAY)).isTrue();
    }

    @Test
    void whatFailedByWhatNoNeighbourDecidedStandsWhoeverWorkedMeanwhile() throws IOException {
        String good = put("good", "qualify", "/media/good");
        String bad = put("bad", "qualify", "/media/bad");
        state(good, Stage.OVER, 1_000, 9_000, "PASS");
        state(bad, Stage.OVER, 2_000, 8_000, "FAIL", false, true);
        tray.lookAfter(TRAY);
        assertThat(shelf.all()).hasSize(2);
        assertThat(tray.over(TRAY)).isTrue();
    }

    @Test
    void whatMissedOnItsOwnStands() throws IOException {
        String one = put("one", "qualify", "/media/one");
        String two = put("two", "qualify", "/media/two");
        state(one, Stage.OVER, 1_000, 2_000, "FAIL");
        state(two, Stage.OVER, 2_001, 3_000, "PASS");
        tray.lookAfter(TRAY);
        assertThat(shelf.all()).hasSize(2);
        assertThat(tray.over(TRAY)).isTrue();
    }

    private String askedAgain() throws IOException {
        String good = put("good", "qualify", "/media/good");
        String bad = put("bad", "qualify", "/media/bad");
        state(good, Stage.OVER, 1_000, 9_000, "PASS");
        state(bad, Stage.OVER, 2_000, 8_000, "FAIL", "Audio was lost.", false, false);
        nowMs++;
        tray.lookAfter(TRAY);
        return shelf.all().get(0).order().id();
    }

    private Sheet second() {
        List<Sheet> runs = tray.runs(TRAY);
        assertThat(runs).hasSize(2);
        return runs.get(1);
    }

    @Test
    void aFailBesideOthersIsNoneWhereTheRepeatCouldNotRun() throws IOException {
        String again = askedAgain();
        assertThat(second().order().id()).isEqualTo(again);
        state(again, Stage.OVER, 0, 20_000, "", "nothing is mounted at /media/bad", false, false);
        assertThat(second().state().outcome()).isEqualTo("NO VERDICT");
        assertThat(second().order().folder()).isEqualTo(folder.resolve("bad").toString());
        assertThat(second().state().todo()).isEqualTo("Test it again alone.");
        assertThat(second().state().sentence())
                .isEqualTo(
                        "It failed beside other drives, which may have decided that: Audio was lost. It was to be tested again alone, and that was not done: "
                                + "Nothing is mounted at /media/bad.");
        assertThat(tray.over(TRAY)).isTrue();
        tray.lookAfter(TRAY);
        assertThat(shelf.all()).hasSize(3);
        assertThat(tray.sentence(TRAY)).isEqualTo("All done: 1 of 2 drives passed.");
    }

    @Test
    void aFailBesideOthersIsNoneWhereTheRepeatsSettledNothing() throws IOException {
        state(askedAgain(), Stage.OVER, 10_000, 20_000, "NO VERDICT", "The computer was late.", false, false);
        String said = "The computer was late. Beside other drives it had failed, and those may have decided that: "
                + "Audio was lost.";
        assertThat(second().state().outcome()).isEqualTo("NO VERDICT");
        assertThat(second().state().sentence()).isEqualTo(said);
        assertThat(tray.over(TRAY)).isFalse();
        nowMs++;
        tray.lookAfter(TRAY);
        Sheet third = second();
        assertThat(third.order().words()).containsOnlyOnce("--alone");
        state(third.order().id(), Stage.OVER, 30_000, 40_000, "NO VERDICT", "The computer was late.", false, false);
        assertThat(second().state().outcome()).isEqualTo("NO VERDICT");
        assertThat(second().state().sentence()).isEqualTo(said);
        assertThat(tray.over(TRAY)).isTrue();
        nowMs++;
        tray.lookAfter(TRAY);
        assertThat(shelf.all()).hasSize(4);
    }

    @Test
    void aFailAloneStandsAfterARepeatThatSettledNothing() throws IOException {
        state(askedAgain(), Stage.OVER, 10_000, 20_000, "NO VERDICT", "The computer was late.", false, false);
        nowMs++;
        tray.lookAfter(TRAY);
        state(second().order().id(), Stage.OVER, 30_000, 40_000, "FAIL", "Audio was lost.", false, false);
        assertThat(second().state().outcome()).isEqualTo("FAIL");
        assertThat(tray.over(TRAY)).isTrue();
    }

    @Test
    void aRepeatThatWasCutShortIsGoneOnWith() throws IOException {
        String again = askedAgain();
        state(again, Stage.WORKS, 10_000, 20_000, "");
        assertThat(second().state().outcome()).isEqualTo("NO VERDICT");
        assertThat(second().state().sentence()).endsWith("that was not done: That was cut short.");
        assertThat(tray.cutShort(TRAY)).isTrue();
        assertThat(tray.sentence(TRAY)).isEqualTo("The tray was cut short.");
        nowMs++;
        tray.goOn(TRAY);
        assertThat(second().order().again()).isEqualTo(again);
        state(second().order().id(), Stage.OVER, 30_000, 40_000, "PASS");
        assertThat(second().state().outcome()).isEqualTo("PASS");
        assertThat(tray.sentence(TRAY)).isEqualTo("All done: 2 of 2 drives passed.");
    }

    @Test
    void aTrayThatWasGoneOnWithKeepsItsDateAndItsOrder() throws IOException {
        long begun = nowMs + 1;
        String cut = put("cut", "qualify", "/media/cut");
        String done = put("done", "qualify", "/media/done");
        state(cut, Stage.WORKS, 2_001, 3_000, "");
        state(done, Stage.OVER, 1_000, 2_000, "PASS");
        nowMs += 86_400_000;
        tray.goOn(TRAY);
        assertThat(tray.begunMs(TRAY)).isEqualTo(begun);
        assertThat(tray.runs(TRAY)).extracting(sheet -> sheet.order().drive()).containsExactly("cut", "done");
    }

    @Test
    void whatWasCutShortIsGoneOnWith() throws IOException {
        String done = put("done", "qualify", "/media/done");
        String cut = put("cut", "qualify", "/media/cut");
        state(done, Stage.OVER, 1_000, 2_000, "PASS");
        state(cut, Stage.WORKS, 2_001, 3_000, "");
        assertThat(tray.runs(TRAY).get(1).cutShort()).isTrue();
        assertThat(tray.over(TRAY)).isFalse();
        nowMs++;
        tray.goOn(TRAY);
        assertThat(tray.runs(TRAY)).extracting(sheet -> sheet.order().again()).containsExactly("", cut);
        assertThat(tray.runs(TRAY)).extracting(Sheet::alive).containsExactly(false, true);
    }

    /** The page and a terminal may look after one tray at a time: what is to be done once is done by one of them. */
    @Test
    void twoWhoLookAfterATrayDoNothingTwice() throws IOException {
        put("good", "qualify", "/media/good");
        String bad = put("bad", "qualify", "/media/bad");
        state(shelf.all().get(1).order().id(), Stage.OVER, 1_000, 9_000, "PASS");
        state(bad, Stage.OVER, 2_000, 8_000, "FAIL");
        Tray other = new Tray(new RunShelf(folder, () -> nowMs), new Started(), () -> nowMs, this::id);
        assertThat(shelf.first(bad, RunShelf.Once.AGAIN)).isTrue();
        other.lookAfter(TRAY);
        assertThat(shelf.all()).hasSize(2);
        assertThat(shelf.first(bad, RunShelf.Once.TOLD)).isTrue();
        assertThat(shelf.first(bad, RunShelf.Once.TOLD)).isFalse();
    }

    @Test
    void aTrayIsSaidInASentence() throws IOException {
        put("one", "qualify", "/media/one");
        String two = put("two", "qualify", "/media/two");
        assertThat(tray.sentence(TRAY)).isEqualTo("2 drives of 2 still to be tested.");
        state(two, Stage.OVER, 2_001, 3_000, "PASS");
        assertThat(tray.sentence(TRAY)).isEqualTo("1 drive of 2 still to be tested.");
        nowMs += 60_000;
        assertThat(tray.sentence(TRAY)).isEqualTo("The tray was cut short.");
        state(tray.runs(TRAY).get(0).order().id(), Stage.OVER, 2_001, 3_000, "FAIL");
        assertThat(tray.sentence(TRAY)).isEqualTo("All done: 1 of 2 drives passed.");
        String three = put("three", "qualify", "/media/three");
        state(three, Stage.OVER, 0, 3_000, "", "It was stopped before it began.", false, false);
        assertThat(tray.sentence(TRAY)).isEqualTo("Over: of 3 drives, 2 were tested and 1 passed.");
    }

    @Test
    void theShelfTakesNothingDamagedForARun() throws IOException {
        String whole = put("whole", "qualify", "/media/whole");
        String damaged = put("damaged", "qualify", "/media/damaged");
        Files.writeString(folder.resolve("runs").resolve(damaged).resolve("order.json"), "{", StandardCharsets.UTF_8);
        Files.createDirectories(folder.resolve("runs/not-an-id"));
        assertThat(shelf.all()).extracting(sheet -> sheet.order().id()).containsExactly(whole);
        assertThat(shelf.byId("../" + whole)).isEmpty();
    }

    @Test
    void theMarkChangesWithWhatIsSaid() throws IOException {
        String one = put("one", "qualify", "/media/one");
        String before = shelf.mark();
        state(one, Stage.WORKS, 2_001, 3_000, "");
        assertThat(shelf.mark()).isNotEqualTo(before);
    }
}
