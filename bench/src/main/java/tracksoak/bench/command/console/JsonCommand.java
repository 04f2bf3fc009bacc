package tracksoak.bench.command.console;

import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Mixin;
import tracksoak.bench.job.Rooms;

/** What the commands have in common that show something to people and to programs. */
public abstract class JsonCommand implements Callable<Integer> {

    @Mixin
    public JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    protected final Console console;
    protected final Rooms rooms;

    protected JsonCommand(Console console, Rooms rooms) {
        this.console = console;
        this.rooms = rooms;
    }

    /** Prints a document of {@link JsonOption#document}. */
    protected final void print(Map<String, ?> document) {
        console.out().println(JsonText.of(document));
    }
}
