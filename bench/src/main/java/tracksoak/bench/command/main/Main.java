package tracksoak.bench.command.main;

import java.util.List;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Terminals;

/** The process. Only here it ends. */
@EndsTheProcess
public final class Main {

    private Main() {}

    /** Runs one command and ends the process with its exit code. */
    public static void main(String[] args) {
        Console console = Terminals.ofThisProcess();
        int code;
        try {
            code = QuickHelp.asked(args)
                    ? QuickHelp.print(console)
                    : CommandLines.of(console, new ThisMachine(), ProcessEnd.INSTANCE, List.of(args))
                            .execute(args);
        } catch (RuntimeException | Error unforeseen) {
            code = new FailedCommand(console).handle(unforeseen);
        }
        console.out().flush();
        console.err().flush();
        if (ProcessEnd.INSTANCE.mustNotWait()) {
            Runtime.getRuntime().halt(code);
        }
        System.exit(code);
    }
}
