package tracksoak.bench.command.drives;

import java.util.concurrent.Callable;
import picocli.CommandLine.Mixin;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.job.Rooms;

/** What the commands have in common that put one drive to work: it is chosen, and the work can be stopped. */
public abstract class OneDriveCommand implements Callable<Integer> {

    @Mixin
    public DriveChoice drive = new DriveChoice();

    public final Console console;
    public final Rooms rooms;
    public final StopSignal stop;

    public OneDriveCommand(Console console, Rooms rooms, StopSignal stop) {
        this.console = console;
        this.rooms = rooms;
        this.stop = stop;
    }
}
