package tracksoak.bench.command.console;

import static org.assertj.core.api.Assertions.assertThat;
import static tracksoak.bench.command.console.ProgressTextTest.progress;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Map;
import org.junit.jupiter.api.Test;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.PhaseKind;

class ProgressDisplayTest {

    private final StringWriter err = new StringWriter();
    private final VirtualClock clock = new VirtualClock(0);

    private ProgressDisplay display(boolean terminal, Map<String, String> environment) {
        return new ProgressDisplay(
                new Console(new PrintWriter(new StringWriter()), new PrintWriter(err), terminal, terminal, environment),
                clock);
    }

    private void twoMinutesAndANewPhase(ProgressDisplay display) {
        for (int i = 0; i < 600; i++) {
            display.show(progress(PhaseKind.TAKE, 1, 120 - i / 5.0, 0, 100));
            clock.advance(200_000_000L);
        }
        display.show(progress(PhaseKind.CLOSE, 2, 1, 0, 0));
        display.clear();
    }

    @Test
    void aTerminalIsDrawnOverTwiceASecond() {
        twoMinutesAndANewPhase(display(true, Map.of()));
        String[] drawn = err.toString().split("\r", -1);
        // Every third of five calls a second finds half a second gone; then the new phase; then the line is cleared.
        assertThat(drawn).hasSize(1 + 200 + 1 + 1);
        assertThat(err.toString()).doesNotContain("\n").endsWith("\r\033[K");
    }

    @Test
    void elsewhereOnePlainLineAMinuteAndPerPhase() {
        twoMinutesAndANewPhase(display(false, Map.of()));
        assertThat(err.toString().lines()).hasSize(3).allMatch(line -> line.startsWith("tracksoak: "));
        assertThat(err.toString()).doesNotContain("\033").doesNotContain("\r\033");
    }

    @Test
    void aDumbTerminalIsNotDrawnOver() {
        twoMinutesAndANewPhase(display(true, Map.of("TERM", "dumb")));
        assertThat(err.toString()).doesNotContain("\033");
    }

    @Test
    void stylesAreOffWhereTheyAreNotWanted() {
        PrintWriter none = new PrintWriter(new StringWriter());
        assertThat(new Console(none, none, true, false, Map.of()).outMayBeStyled())
                .isTrue();
        assertThat(new Console(none, none, false, true, Map.of()).outMayBeStyled())
                .isFalse();
        assertThat(new Console(none, none, true, true, Map.of("NO_COLOR", "1")).outMayBeStyled())
                .isFalse();
        assertThat(new Console(none, none, true, true, Map.of("TERM", "dumb")).outMayBeStyled())
                .isFalse();
    }
}
