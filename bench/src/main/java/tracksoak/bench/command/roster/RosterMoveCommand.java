package tracksoak.bench.command.roster;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.RosterOption;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterMove;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.Tally;
import tracksoak.report.roster.store.RosterPlace;

/** From an SQLite file into PostgreSQL, or back. */
@Command(
        name = "move",
        header = "Bring the whole roster into another place: from a file to PostgreSQL, or back.",
        description = {
            "Hands over every event and record that is not there yet, then reads both places from end to end and"
                    + " compares counts and hashes. The roster it comes from stays as it is, and so does what was there"
                    + " before. It may be interrupted and done again."
        },
        sortOptions = false)
public final class RosterMoveCommand extends OneRosterCommand {

    private static final int TOLD_EVERY = 1_000;

    @Parameters(
            paramLabel = "FILE|URL",
            description = "Where to: an SQLite file, made if it is not there, or postgresql://HOST/DATABASE.")
    @SuppressWarnings("NullAway.Init")
    String to;

    private int told;

    public RosterMoveCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        RosterPlace from = rosterOption.place(rooms, console);
        RosterPlace there = RosterOption.place("the place to move to", to, console);
        Path file = from.file();
        if (file != null && !Files.isRegularFile(file)) {
            throw Problem.askedWrong(
                    "there is no roster at " + Inert.quoted(from), "name the one to move with --roster");
        }
        if (from.equals(there) || (file != null && same(file, there.file()))) {
            throw Problem.askedWrong(
                    Inert.quoted(there) + " is the roster that would be moved", "name another place to move it to");
        }
        RosterMove.Result result;
        try (Roster source = Roster.open(from, RosterAccess.clock());
                Roster target = Roster.open(there, RosterAccess.clock())) {
            result = RosterMove.run(source, target, (fetched, handedOver) -> tell(handedOver));
        }
        if (json.asked) {
            print(json(from, there, result));
        } else {
            print(from, there, result);
        }
        if (!result.whole()) {
            throw Problem.cannot(
                    "not all of it arrived: " + missing(result),
                    "the roster at " + Inert.quoted(from) + " is as it was; see what was refused, and move again");
        }
        return Exit.DONE;
    }

    /** By whatever spelling or link it is reached. */
    private static boolean same(Path file, @Nullable Path other) {
        try {
            return other != null && Files.exists(other) && Files.isSameFile(file, other);
        } catch (IOException unknown) {
            return false;
        }
    }

    private void tell(int handedOver) {
        if (handedOver / TOLD_EVERY > told / TOLD_EVERY) {
            console.say(Count.inDigits(handedOver, "event") + " handed over");
        }
        told = handedOver;
    }

    private static String missing(RosterMove.Result result) {
        return Count.inDigits(result.from().broken().size(), "event") + " cannot be read as it was signed, "
                + Count.inDigits(result.to().broken().size(), "event") + " not there or changed";
    }

    private void print(RosterPlace from, RosterPlace there, RosterMove.Result result) {
        Receipt receipt = result.receipt();
        receipt.refused().stream()
                .limit(20)
                .forEach(one -> console.complain(Inert.whole(one.event() + ": " + one.why()), ""));
        Table table = new Table("", ">EVENTS", ">RECORDS", "SHA-256");
        row(table, from, result.from());
        row(table, there, result.to());
        table.print(console);
        console.out()
                .println(Count.inDigits(receipt.taken(), "event") + " moved, "
                        + Count.inDigits(result.allThere() - receipt.taken(), "event") + " there before; "
                        + Count.inDigits(result.allThere(), "event") + " there in all");
        if (result.whole()) {
            console.say("the roster at " + Inert.whole(from.toString())
                    + " is as it was; to use the other one from now on: --roster, or " + RosterOption.PLACE);
        }
    }

    private static void row(Table table, RosterPlace place, Tally tally) {
        table.row(
                place.toString(),
                Long.toString(tally.events()),
                Long.toString(tally.records()),
                tally.sha256().substring(0, 16) + "…");
    }

    private static Map<String, Object> json(RosterPlace from, RosterPlace there, RosterMove.Result result) {
        Map<String, Object> document = JsonOption.document("roster-move/1");
        document.put("from", from.toString());
        document.put("to", there.toString());
        document.put("whole", result.whole());
        document.put("moved", result.receipt().taken());
        document.put("eventsThere", result.allThere());
        document.put("tallyFrom", result.from());
        document.put("tallyTo", result.to());
        document.put("refused", result.receipt().refused());
        return document;
    }
}
