package tracksoak.bench.command.session;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.Demand;
import tracksoak.profiles.FileSystemShape;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Problem;

/** Shows one session with its demand. */
@Command(name = "show", header = "Show one session, what it needs per second, and the room it takes.")
public final class SessionsShowCommand extends JsonCommand {

    @Parameters(paramLabel = "NAME", description = "Name of a session, from the list of tracksoak sessions.")
    String name = "";

    @Option(
            names = "--on",
            paramLabel = "TYPE",
            description = "File system to work out the room for, for example exfat or fat32. Without it: both.")
    @Nullable
    String on;

    @Option(
            names = "--cluster",
            paramLabel = "SIZE",
            converter = Amounts.Size.class,
            description = "Its cluster size, for example 128KiB. Without it: what a 64 GB drive usually comes with.")
    @Nullable
    Long cluster;

    @Option(
            names = "--free",
            paramLabel = "SIZE",
            converter = Amounts.Size.class,
            description = "Free space, for example 58GB: how long it lasts.")
    long free;

    private static final long USUAL_DRIVE = 64_000_000_000L;

    public SessionsShowCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        SessionCatalog catalog = SessionCatalog.of(rooms.sessionsFolder());
        Session session = catalog.find(name);
        Demand demand = Demand.of(session);
        List<FileSystemShape> shapes = (on == null ? List.of("exfat", "fat32") : List.of(on))
                .stream().map(this::shape).toList();
        String origin = SessionsCommand.origin(catalog, session);
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("session/1");
            document.put("session", SessionDocument.of(session, origin));
            document.put(
                    "demand",
                    SessionDocument.demand(
                            demand, shapes.stream().map(demand::roomOn).toList()));
            if (free > 0) {
                document.put("freeBytes", free);
                document.put("freeLastsS", demand.secondsUntilFull(free, shapes.get(0)));
            }
            print(document);
        } else {
            SessionText.print(session, origin, console.out());
            SessionText.printDemand(demand, console.out());
            shapes.forEach(shape -> SessionText.printRoom(demand, shape, free, console.out()));
        }
        return Exit.DONE;
    }

    private FileSystemShape shape(String type) {
        try {
            return cluster == null ? FileSystemShape.usual(type, USUAL_DRIVE) : FileSystemShape.of(type, cluster);
        } catch (IllegalArgumentException impossible) {
            throw Problem.askedWrong("--cluster: " + impossible.getMessage(), "give a size like 32KiB or 128KiB");
        }
    }
}
