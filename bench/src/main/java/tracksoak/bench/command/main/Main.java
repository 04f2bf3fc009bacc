package tracksoak.bench.command.main;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.util.List;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.Terminals;
import tracksoak.bench.command.roster.QuickList;
import tracksoak.bench.command.roster.RosterListCommand;

/** The process. Only here it ends. */
@EndsTheProcess
public final class Main {

    /** Set by the launcher of the installed program. */
    private static final String INSTALLED = "tracksoak.installed";

    private Main() {}

    /** Runs one command and ends the process with its exit code. */
    public static void main(String[] args) {
        Console console = Terminals.ofThisProcess();
        List<String> words = words(args);
        int code;
        try {
            code = QuickHelp.asked(args) ? QuickHelp.print(console) : run(console, words);
        } catch (RuntimeException | Error unforeseen) {
            code = new FailedCommand(console).handle(unforeseen);
        }
        if (console.out().checkError() && code == Exit.DONE && !nobodyReads()) {
            console.complain(
                    "not all that was to be printed could be written", "make room where it goes, and ask again");
            code = Exit.COULD_NOT_RUN;
        }
        console.err().flush();
        if (ProcessEnd.INSTANCE.mustNotWait()) {
            Runtime.getRuntime().halt(code);
        }
        System.exit(code);
    }

    /** Whether the reader went away, as {@code head} does when it has enough: nothing of what was asked for is lost then. */
    private static boolean nobodyReads() {
        try (FileOutputStream out = new FileOutputStream(FileDescriptor.out)) {
            out.write('\n');
            return false;
        } catch (IOException refused) {
            return String.valueOf(refused.getMessage()).contains("Broken pipe");
        }
    }

    /** Runs one command; what goes wrong in it unforeseen is thrown. */
    static int run(Console console, List<String> words) {
        ThisMachine rooms = new ThisMachine();
        rooms.keepToOwner();
        try {
            RosterListCommand list = QuickList.read(console, rooms, words).orElse(null);
            return list != null
                    ? list.call()
                    : CommandLines.of(console, rooms, ProcessEnd.INSTANCE, words)
                            .execute(words.toArray(new String[0]));
        } finally {
            rooms.keepToOwner(); // what the command has made
        }
    }

    /** Whoever clicks on the installed program types nothing, and wants the bench. */
    @SuppressWarnings("SystemConsoleNull") // the installed program brings its own Java 17
    private static List<String> words(String[] args) {
        boolean clicked = args.length == 0 && System.getProperty(INSTALLED) != null && System.console() == null;
        return clicked ? List.of("bench") : List.of(args);
    }
}
