package tracksoak.bench.command.standin;

import picocli.CommandLine.Command;
import tracksoak.bench.command.console.CommandGroup;
import tracksoak.bench.command.console.Console;

/** A drive made of software; what it does is in its own commands. */
@Command(
        name = "stand-in",
        header = "A drive made of software: see what your recorder does, and how much it holds.",
        description = {
            "Your recorder records to a file on this computer as if it were a drive. From what it asks for, its pattern is "
                    + "learnt; by stopping now and then, its buffer is measured. How to connect it: docs/recorder.md.",
            "Never use it for a recording that matters."
        },
        commandListHeading = "%nCommands:%n")
public final class StandInCommand extends CommandGroup {

    public StandInCommand(Console console) {
        super(console);
    }
}
