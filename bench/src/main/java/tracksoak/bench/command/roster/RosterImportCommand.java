package tracksoak.bench.command.roster;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.exchange.ExchangeFile;
import tracksoak.report.roster.exchange.Receipt;

/** A file of another laptop into the roster. */
@Command(
        name = "import",
        header = "Take what another laptop exported; doing it again is harmless.",
        sortOptions = false)
public final class RosterImportCommand extends OneRosterCommand {

    @Parameters(paramLabel = "FILE", description = "A file that roster export wrote.")
    @SuppressWarnings("NullAway.Init")
    Path file;

    @Option(
            names = "--new-keys",
            description =
                    "Also make keys known that the file holds: whoever's key is known can make drives trusted. Without it "
                            + "they are named and left out.")
    boolean newKeys;

    public RosterImportCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        if (!Files.isRegularFile(file)) {
            throw Problem.askedWrong(Inert.quoted(file) + " is no file", "name a file that roster export wrote");
        }
        ExchangeFile.Result result;
        try (InputStream from = Files.newInputStream(file);
                Roster roster = rosterOption.open(rooms, console)) {
            result = ExchangeFile.read(from, roster.peer(), newKeys);
        } catch (IOException failed) {
            throw Problem.cannot(
                    Inert.quoted(file) + " cannot be read: " + Inert.whole(Failure.words(failed)), "copy it again");
        }
        Receipt receipt = result.receipt();
        if (json.asked) {
            print(json(result));
        } else {
            console.out()
                    .println(receipt.taken() + " new, " + receipt.known() + " known already, "
                            + receipt.refused().size() + " refused");
            receipt.refused().stream()
                    .limit(20)
                    .forEach(one -> console.complain(Inert.whole("refused: " + one.event() + ": " + one.why()), ""));
            if (!result.keys().isEmpty()) {
                console.complain(
                        Inert.whole("keys left out, whose records give no trust: " + String.join(", ", result.keys())),
                        "compare the ids with the testers by voice, then import again with --new-keys");
            }
        }
        return receipt.refused().isEmpty() ? Exit.DONE : Exit.USAGE;
    }

    private Map<String, Object> json(ExchangeFile.Result result) {
        Map<String, Object> document = JsonOption.document("roster-import/1");
        document.put("file", file.toString());
        document.put("taken", result.receipt().taken());
        document.put("known", result.receipt().known());
        document.put("refused", result.receipt().refused());
        document.put("keysLeftOut", result.keys());
        return document;
    }
}
