package tracksoak.bench.command.main;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;

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
        try (InputStream in = QuickHelp.class.getResourceAsStream(TEXT)) {
            if (in == null) {
                throw new IllegalStateException("the help text is missing from the program");
            }
            console.out().print(new String(in.readAllBytes(), StandardCharsets.UTF_8));
            return Exit.DONE;
        } catch (IOException unreadable) {
            throw new UncheckedIOException(unreadable);
        }
    }
}
