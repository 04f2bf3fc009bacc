package tracksoak.bench.command.main;

import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.profiles.base.Shipped;

/**
 * The first help, for people who ask for nothing else. Its text is kept ready, since putting it together from the commands
 * takes four times as long as Java takes to start; a test holds it to what the commands say.
 */
final class QuickHelp {

    static final String TEXT = "/tracksoak/help.txt";

    private QuickHelp() {}

    /** Whether nothing but help is asked for. */
    static boolean asked(String[] args) {
        return args.length == 1 && (args[0].equals("--help") || args[0].equals("-h"));
    }

    /** Prints it. */
    static int print(Console console) {
        console.out().print(Shipped.text(TEXT));
        return Exit.DONE;
    }
}
