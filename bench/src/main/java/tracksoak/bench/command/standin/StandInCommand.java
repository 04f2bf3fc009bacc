package tracksoak.bench.command.standin;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;

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
public final class StandInCommand implements Callable<Integer> {

    @Mixin
    HelpOption help = new HelpOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    CommandSpec spec;

    private final Console console;

    public StandInCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        spec.commandLine().usage(console.err());
        return Exit.USAGE;
    }
}
