package tracksoak.bench.command;

import java.util.concurrent.Callable;
import picocli.CommandLine.Mixin;

/** What the commands have in common that put one drive to work: it is chosen, and the work can be stopped. */
abstract class OneDriveCommand implements Callable<Integer> {

    @Mixin
    DriveChoice drive = new DriveChoice();

    final Console console;
    final Rooms rooms;
    final StopSignal stop;

    OneDriveCommand(Console console, Rooms rooms, StopSignal stop) {
        this.console = console;
        this.rooms = rooms;
        this.stop = stop;
    }
}
