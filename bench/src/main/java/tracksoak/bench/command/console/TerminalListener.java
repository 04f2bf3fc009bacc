package tracksoak.bench.command.console;

import tracksoak.bench.job.JobListener;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;

/** Writes the news of a job on the error channel. What only some jobs tell, their commands add. */
public class TerminalListener implements JobListener {

    private final Console console;
    private final Runnable onHang;
    private ProgressDisplay display;

    /** @param onHang what is to be done when a thread hangs in the drive; nothing for jobs that do not write to one */
    public TerminalListener(Console console, Runnable onHang) {
        this.console = console;
        this.onHang = onHang;
        this.display = new ProgressDisplay(console, SystemClocks.NANO);
    }

    /** Takes the line of progress away, so that other words can follow. */
    protected final void clear() {
        display.clear();
    }

    /** A sentence for the person at the keyboard, on a line of its own. */
    protected final void say(String sentence) {
        clear();
        console.say(Inert.whole(sentence));
    }

    @Override
    public final void note(String sentence) {
        say("note: " + sentence);
    }

    @Override
    public final void trouble(Problem problem) {
        clear();
        console.complain(Inert.whole(problem.told()), Inert.whole(problem.todo()));
    }

    @Override
    public final void progress(Progress progress) {
        display.show(progress);
    }

    /** The next run shows its first step at once, whatever was shown before. */
    @Override
    public final void idle() {
        clear();
        display = new ProgressDisplay(console, SystemClocks.NANO);
    }

    @Override
    public final void driveHangs() {
        onHang.run();
    }
}
