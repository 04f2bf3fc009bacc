package tracksoak.bench.command.session;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.Demand;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Units;

/** Lists the sessions that can be named. */
@Command(
        name = "sessions",
        header = "List the sessions; show, check or copy one.",
        description = {
            "A session says what will be recorded and what that asks of a drive. Some are shipped; your own are TOML "
                    + "files in a folder of yours, named below the list."
        })
public final class SessionsCommand extends JsonCommand {

    public SessionsCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        SessionCatalog catalog = SessionCatalog.of(rooms.sessionsFolder());
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("sessions/1");
            document.put("folder", rooms.sessionsFolder().toString());
            document.put(
                    "sessions",
                    catalog.all().stream()
                            .map(session -> SessionDocument.of(session, origin(catalog, session)))
                            .toList());
            document.put("problems", catalog.problems());
            print(document);
        } else {
            print(catalog);
        }
        complainAbout(catalog.problems(), console);
        return Exit.DONE;
    }

    private void print(SessionCatalog catalog) {
        Table table = new Table("SESSION", "KIND", "TRACKS × kHz/BIT", ">DEMAND", ">LENGTH", ">IN ALL", "");
        for (Session session : catalog.all()) {
            Demand demand = Demand.of(session);
            table.row(
                    session.name(),
                    KebabCase.of(session.kind()),
                    session.groups().stream().map(SessionsCommand::brief).collect(Collectors.joining(" + ")),
                    Units.rate((double) demand.bytesPerSecond()),
                    Units.seconds((double) session.lengthS()),
                    Units.bytes(demand.dataBytes()),
                    "shipped".equals(origin(catalog, session)) ? "" : "yours");
        }
        table.print(console);
        console.out().println();
        console.out().println("One in full:  tracksoak sessions show NAME");
        console.out()
                .println("Your own:     tracksoak sessions text NAME prints one to start from; keep it in "
                        + Inert.whole(rooms.sessionsFolder().toString()));
    }

    /** {@code 32 × 48/24}: in whole words it would take half of a window of 80 columns, and break each line. */
    private static String brief(TrackGroup group) {
        return group.tracks() + " × " + Quantity.plain(group.sampleRateHz() / 1000.0) + "/"
                + group.format().words().replace("-bit", "");
    }

    static String origin(SessionCatalog catalog, Session session) {
        return catalog.origin(session.name()).orElse("");
    }

    public static void complainAbout(List<ProfileError> problems, Console console) {
        for (ProfileError problem : problems) {
            boolean option = problem.file().equals("option");
            String what = option
                    ? OptionNames.named(problem.key()) + Inert.quoted(problem.value()) + " " + problem.problem()
                    : problem.where() + ": " + problem.problem();
            String allowed = problem.allowed().isEmpty() ? "" : "allowed: " + problem.allowed() + "; ";
            console.complain(
                    Inert.whole(what),
                    Inert.whole(allowed + (option ? OptionNames.remedy(problem) : problem.remedy())));
        }
    }
}
