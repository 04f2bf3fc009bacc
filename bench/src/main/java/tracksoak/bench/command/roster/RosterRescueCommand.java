package tracksoak.bench.command.roster;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterRescue;
import tracksoak.report.roster.exchange.Tally;
import tracksoak.report.roster.store.RosterPlace;
import tracksoak.report.roster.store.Salvage;

/** A damaged SQLite file made anew. */
@Command(
        name = "rescue",
        header = "Make a damaged roster file anew, from what can be read of it and from your run records.",
        description = {
            "The damaged file is put aside, never deleted. What others had comes back with the next sync or import. A file "
                    + "that is whole is looked over from end to end, what follows from its events is worked out anew, and nothing "
                    + "else is done. End everything that has the file open first.",
            "Ends with 3 where an event or record is lost, or may be."
        },
        sortOptions = false)
public final class RosterRescueCommand extends OneRosterCommand {

    @Option(
            names = "--records",
            paramLabel = "FOLDER",
            description = "Run records to enter again where they are missing. Without it: your own.")
    @Nullable
    Path records;

    public RosterRescueCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        RosterPlace place = rosterOption.place(rooms, console);
        Path file = place.file();
        if (file == null) {
            throw Problem.askedWrong(
                    "the roster at " + Inert.quoted(place) + " is no file",
                    "a PostgreSQL database is mended with its own tools, or filled again by roster sync, import or move");
        }
        if (!Files.isRegularFile(file)) {
            throw Problem.askedWrong(
                    "there is no roster at " + Inert.quoted(file), "name the damaged one with --roster");
        }
        Path folder = records == null ? rooms.recordsFolder() : records;
        if (records != null && !Files.isDirectory(folder)) {
            throw Problem.askedWrong(Inert.quoted(folder) + " is no folder", "name the folder of your run records");
        }
        Optional<String> damage = RosterRescue.damage(file);
        return damage.isEmpty() ? whole(file) : rescue(file, folder, damage.get());
    }

    private int whole(Path file) {
        Tally tally;
        try (Roster roster = Roster.open(RosterPlace.sqlite(file), RosterAccess.clock())) {
            roster.rebuild();
            tally = Tally.of(roster.peer());
        }
        if (json.asked) {
            print(document(file, false, tally));
        } else {
            console.out().println(Inert.whole(file + " is whole: nothing to rescue"));
            print(tally);
        }
        return tally.whole() ? Exit.DONE : Exit.COULD_NOT_RUN;
    }

    private int rescue(Path file, Path folder, String damage) {
        console.say(Inert.whole(file + " is damaged: " + damage));
        RosterRescue.Result result = RosterRescue.rescue(file, folder, RosterAccess.key(rooms), RosterAccess.clock());
        if (json.asked) {
            Map<String, Object> document = document(file, true, result.tally());
            document.put("aside", result.aside().toString());
            document.put("allRead", result.read().whole());
            document.put("eventsRead", result.read().events());
            document.put("eventsLost", result.read().lost());
            document.put("recordsEntered", result.records());
            document.put("unread", result.unread().stream().map(Path::toString).toList());
            print(document);
        } else {
            result.unread().forEach(one -> console.say(Inert.whole("not readable, left out: " + one)));
            console.out()
                    .println("read from the damaged file: "
                            + Count.inDigits(result.read().events(), "event") + rest(result.read()));
            console.out()
                    .println(Inert.whole(
                            "entered again from " + folder + ": " + Count.inDigits(result.records(), "record")));
            print(result.tally());
            console.out().println(Inert.whole("the damaged file lies at " + result.aside()));
            if (!result.read().whole()) {
                console.say("what others had comes back with the next sync or import");
            }
        }
        return result.read().whole() && result.tally().whole() ? Exit.DONE : Exit.COULD_NOT_RUN;
    }

    private static String rest(Salvage.Result read) {
        if (read.whole()) {
            return ", all that it held";
        }
        return read.lost() > 0
                ? "; " + Count.inDigits(read.lost(), "more event") + " named in it cannot be read"
                : "; it names no other, but a part of it cannot be read";
    }

    private void print(Tally tally) {
        console.out()
                .println(Count.inDigits(tally.events(), "event") + ", " + Count.inDigits(tally.records(), "record")
                        + " in it as they were signed; SHA-256 "
                        + tally.sha256().substring(0, 16) + "…");
        if (!tally.whole()) {
            console.complain(
                    Count.inDigits(tally.broken().size(), "event")
                            + " in it changed since it was signed, and counts for nothing",
                    "import or sync from a roster that has it unchanged");
        }
    }

    private static Map<String, Object> document(Path file, boolean damaged, Tally tally) {
        Map<String, Object> document = JsonOption.document("roster-rescue/1");
        document.put("file", file.toString());
        document.put("damaged", damaged);
        document.put("tally", tally);
        return document;
    }
}
