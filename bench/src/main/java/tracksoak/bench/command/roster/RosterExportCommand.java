package tracksoak.bench.command.roster;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.RosterOption;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.exchange.ExchangeFile;

/** The whole roster into one file. */
@Command(
        name = "export",
        header = "Write the whole roster into a file, for another laptop to import.",
        sortOptions = false)
public final class RosterExportCommand extends OneRosterCommand {

    @Parameters(paramLabel = "FILE", description = "A file that is not there yet.")
    @SuppressWarnings("NullAway.Init")
    Path file;

    public RosterExportCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        int[] written = new int[1];
        try (Roster roster = rosterOption.openThere(rooms, console)) {
            boolean made = !Files.exists(file)
                    && AtomicFile.create(file, to -> written[0] = ExchangeFile.write(roster.peer(), to));
            if (!made) {
                throw Problem.askedWrong(
                        Inert.quoted(file) + " is there already", "give a new name: nothing is written over");
            }
            RosterOption.tellSetAside(roster, console);
        } catch (IOException failed) {
            throw Problem.cannot(
                    Inert.quoted(file) + " cannot be written: " + Problem.reason(failed),
                    "check that the folder is there and has room");
        }
        int events = written[0];
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("roster-export/1");
            document.put("file", file.toString());
            document.put("events", events);
            print(document);
        } else {
            console.out().println(Count.inDigits(events, "event") + " written to " + Inert.whole(file.toString()));
        }
        return Exit.DONE;
    }
}
