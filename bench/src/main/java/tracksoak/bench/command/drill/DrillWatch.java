package tracksoak.bench.command.drill;

import java.io.IOException;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.ProgressDisplay;
import tracksoak.bench.job.DrillFiles;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.phase.drill.DrillListener;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DrillRecord;

/** Tells the person what to do, shows how a drill is getting on, and keeps its record meanwhile. */
public final class DrillWatch implements DrillListener {

    private final ProgressDisplay display;
    private final Console console;
    private final DrillFiles files;
    private final boolean somethingElsePulls;
    private final double waitS;
    private final boolean virtual;
    private boolean complained;

    /**
     * @param somethingElsePulls whether the person need not be asked to pull the drive
     * @param virtual whether nobody has to do anything, as the drive is simulated
     */
    DrillWatch(
            Console console,
            NanoClock clock,
            DrillFiles files,
            boolean somethingElsePulls,
            double waitS,
            boolean virtual) {
        this.display = new ProgressDisplay(console, clock);
        this.console = console;
        this.files = files;
        this.somethingElsePulls = somethingElsePulls;
        this.waitS = waitS;
        this.virtual = virtual;
    }

    @Override
    public void stage(Stage stage) {
        display.clear();
        String words = virtual ? "" : words(stage);
        if (!words.isEmpty()) {
            console.say(words);
        }
    }

    private String words(Stage stage) {
        return switch (stage) {
            case STOP_FIRST -> "first a short take that is stopped and closed in order: do not touch the drive";
            case RECORDING ->
                somethingElsePulls
                        ? "recording; the drive will be pulled by something else"
                        : "recording: do not touch the drive until you are asked to";
            case PULL_NOW -> somethingElsePulls ? "" : "NOW PULL THE DRIVE OUT. Do not stop, do not eject.";
            case GONE -> "the drive is gone";
            case PLUG_IN ->
                "plug the drive in again and mount it; it may get another name or place. If the system still shows the "
                        + "old one, unmount that first. Waiting for " + Units.seconds(waitS) + " at most.";
            case READING -> "the drive is back: reading what survived; leave it plugged in";
        };
    }

    @Override
    public void progress(Progress progress) {
        display.show(progress);
    }

    @Override
    public void snapshot(DrillRecord soFar) {
        try {
            files.saveRecord(soFar);
        } catch (IOException refused) {
            if (!complained) {
                complained = true;
                display.clear();
                console.complain(
                        "the drill's record cannot be kept (" + RunFiles.reason(refused) + "); the drill goes on",
                        "make room there before it ends");
            }
        }
    }

    public void end() {
        display.clear();
    }
}
