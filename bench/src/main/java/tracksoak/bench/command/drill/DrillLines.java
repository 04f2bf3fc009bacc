package tracksoak.bench.command.drill;

import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.TerminalListener;
import tracksoak.bench.phase.drill.DrillListener.Stage;
import tracksoak.profiles.base.Units;

/** The news of a drill in lines: what the person has to do, and when. */
final class DrillLines extends TerminalListener {

    private final boolean somethingElsePulls;
    private final double waitS;
    private final boolean virtual;

    /**
     * @param somethingElsePulls whether the person need not be asked to pull the drive
     * @param waitS the drive must be back within this time, in s
     * @param virtual whether nobody has to do anything, as the drive is simulated
     */
    DrillLines(Console console, Runnable onHang, boolean somethingElsePulls, double waitS, boolean virtual) {
        super(console, onHang);
        this.somethingElsePulls = somethingElsePulls;
        this.waitS = waitS;
        this.virtual = virtual;
    }

    @Override
    public void drills(Stage stage) {
        clear();
        String words = virtual ? "" : words(stage);
        if (!words.isEmpty()) {
            say(words);
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
}
