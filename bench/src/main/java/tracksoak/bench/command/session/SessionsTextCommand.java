package tracksoak.bench.command.session;

import java.nio.charset.StandardCharsets;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Inert;

/** Prints the file of a shipped session, for a user to start from. */
@Command(name = "text", header = "Print the file of a shipped session, to start one of your own from.")
public final class SessionsTextCommand implements Callable<Integer> {

    @Mixin
    HelpOption help = new HelpOption();

    @Parameters(paramLabel = "NAME", description = "Name of a shipped session.")
    String name = "";

    private final Console console;
    private final Rooms rooms;

    public SessionsTextCommand(Console console, Rooms rooms) {
        this.console = console;
        this.rooms = rooms;
    }

    @Override
    public Integer call() {
        SessionCatalog.shipped().find(name);
        byte[] text = SessionCatalog.shippedText(name).orElseThrow();
        console.out().print(new String(text, StandardCharsets.UTF_8));
        console.out().flush();
        console.say(
                "keep it as NAME.toml in " + Inert.whole(rooms.sessionsFolder().toString())
                        + " and change its name; then: tracksoak sessions check FILE");
        return Exit.DONE;
    }
}
