package tracksoak.bench.command.main;

import java.util.concurrent.Callable;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;

/** Prints what a shell needs to complete commands, options and their values. */
@Command(name = "completion", header = "Print completion for bash and zsh: source <(tracksoak completion)")
final class CompletionCommand implements Callable<Integer> {

    @Mixin
    HelpOption help = new HelpOption();

    @Spec
    @SuppressWarnings("NullAway.Init")
    CommandSpec spec;

    private final Console console;

    CompletionCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        console.out().print(AutoComplete.bash("tracksoak", spec.root().commandLine()));
        return Exit.DONE;
    }
}
