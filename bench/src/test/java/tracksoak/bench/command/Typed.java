package tracksoak.bench.command;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.util.List;
import java.util.Map;
import picocli.CommandLine;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.main.CommandLines;
import tracksoak.bench.job.Rooms;

/** A command line typed in, and what came of it. */
public record Typed(int code, String out, String err) {

    /** Runs one in this process. */
    public static Typed run(Rooms rooms, String... args) {
        return run(rooms, new NeverStopped(), args);
    }

    public static Typed run(Rooms rooms, StopSignal stop, String... args) {
        return run(rooms, stop, Map.of(), args);
    }

    /** With environment variables. */
    public static Typed run(Rooms rooms, Map<String, String> environment, String... args) {
        return run(rooms, new NeverStopped(), environment, args);
    }

    /** All commands; whatever is run by them talks to nobody. */
    public static CommandLine commands(Rooms rooms) {
        PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
        return CommandLines.of(new Console(nowhere, nowhere, false, false, Map.of()), rooms, new NeverStopped());
    }

    private static Typed run(Rooms rooms, StopSignal stop, Map<String, String> environment, String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        PrintWriter outWriter = new PrintWriter(out);
        PrintWriter errWriter = new PrintWriter(err);
        Console console = new Console(outWriter, errWriter, false, false, environment);
        int code = CommandLines.of(console, rooms, stop, List.of(args)).execute(args);
        outWriter.flush();
        errWriter.flush();
        return new Typed(code, out.toString(), err.toString());
    }

    /** Nobody presses Ctrl-C. */
    static final class NeverStopped implements StopSignal {

        private boolean mustNotWait;

        @Override
        public Watch onStop(Runnable cancel) {
            return new Watch() {
                @Override
                public boolean stopped() {
                    return false;
                }

                @Override
                public void close() {}
            };
        }

        @Override
        public void doNotWait() {
            mustNotWait = true;
        }

        boolean mustNotWait() {
            return mustNotWait;
        }
    }
}
