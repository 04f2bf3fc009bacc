package tracksoak.bench.command;

import java.util.concurrent.Callable;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

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
