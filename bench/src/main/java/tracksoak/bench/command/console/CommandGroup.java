package tracksoak.bench.command.console;

import java.util.concurrent.Callable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** A command that does nothing by itself, and shows the way to those below it. */
public abstract class CommandGroup implements Callable<Integer> {

    @Mixin
    HelpOption help = new HelpOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    CommandSpec spec;

    private final Console console;

    public CommandGroup(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        spec.commandLine().usage(console.err());
        return Exit.USAGE;
    }
}
