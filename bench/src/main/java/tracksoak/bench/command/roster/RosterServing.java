package tracksoak.bench.command.roster;

import java.util.function.Consumer;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.profiles.base.Inert;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.ServerLog;

/** A roster server that runs until somebody asks for its end. */
public final class RosterServing {

    private RosterServing() {}

    /**
     * Serves until Ctrl-C, and closes the server.
     *
     * @param ready told once, with the server that listens
     * @param over run when it serves no more; after Ctrl-C nothing else is waited for
     * @return {@link Exit#INTERRUPTED} after Ctrl-C
     */
    public static int untilStopped(RosterServer server, StopSignal stop, Consumer<RosterServer> ready, Runnable over)
            throws InterruptedException {
        try (StopSignal.Watch signal = stop.onStop(server::close)) {
            try {
                ready.accept(server);
                server.await();
            } finally {
                over.run();
            }
            return signal.stopped() ? Exit.INTERRUPTED : Exit.DONE;
        } finally {
            server.close();
        }
    }

    /** What happens inside the server, in the words of the command line. */
    public static ServerLog log(Console console, boolean requests) {
        return new ServerLog() {
            @Override
            public void request(String line) {
                if (requests) {
                    console.say(line);
                }
            }

            @Override
            public void failure(String line) {
                console.complain("the server: " + Inert.whole(line), "");
            }
        };
    }
}
