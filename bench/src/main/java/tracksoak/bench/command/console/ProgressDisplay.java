package tracksoak.bench.command.console;

import java.io.PrintWriter;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.NanoClock;
import tracksoak.report.record.facts.PhaseKind;

/**
 * Shows progress on the error channel: one line drawn over twice a second on a terminal, else one plain line a minute and
 * one for each new phase. Used by one thread at a time.
 */
public final class ProgressDisplay {

    private static final long REDRAW_NS = 500_000_000L;
    private static final long PLAIN_NS = 60_000_000_000L;

    private final PrintWriter err;
    private final boolean redrawn;
    private final NanoClock clock;
    private @Nullable PhaseKind phase;
    private int step;
    private long shownNs;
    private boolean lineOpen;
    private final int columns;

    public ProgressDisplay(Console console, NanoClock clock) {
        this.err = console.err();
        this.redrawn = console.errMayBeRedrawn();
        this.clock = clock;
        this.columns = console.errColumns();
    }

    /** Shows it, if it is time to. */
    public synchronized void show(Progress progress) {
        long now = clock.nanoTime();
        boolean newPhase = progress.phase() != phase || progress.step() != step;
        if (!newPhase && now - shownNs < (redrawn ? REDRAW_NS : PLAIN_NS)) {
            return;
        }
        phase = progress.phase();
        step = progress.step();
        draw(ProgressText.of(progress, redrawn ? columns : Integer.MAX_VALUE), now);
    }

    /** Shows a line of text, if it is time to. */
    public synchronized void show(Supplier<String> text) {
        long now = clock.nanoTime();
        if (shownNs == 0) {
            // what is over at once need not be shown
            shownNs = now;
        } else if (now - shownNs >= (redrawn ? REDRAW_NS : PLAIN_NS)) {
            draw(text.get(), now);
        }
    }

    private void draw(String text, long now) {
        shownNs = now;
        if (redrawn) {
            // Wrapping is off while the line is drawn: a narrow window cuts it instead of scrolling.
            err.print("\r\033[?7l" + text + "\033[K\033[?7h");
            lineOpen = true;
        } else {
            err.println("tracksoak: " + text);
        }
        err.flush();
    }

    /** Clears the line, so that other words can follow. */
    public synchronized void clear() {
        if (lineOpen) {
            err.print("\r\033[K");
            err.flush();
            lineOpen = false;
        }
    }
}
