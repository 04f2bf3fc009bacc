package tracksoak.bench.command.session;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Units;

/** Checks a session file of the user's. */
@Command(name = "check", header = "Check a session file of your own; every error is listed at once.")
public final class SessionsCheckCommand extends JsonCommand {

    @Parameters(paramLabel = "FILE", description = "A session file (TOML).")
    Path file = Path.of("");

    public SessionsCheckCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        List<ProfileError> errors = List.of();
        String good = "";
        try {
            var session = SessionReader.read(file);
            good = session.name() + ", " + TrackGroup.words(session.groups()) + ", "
                    + Units.rate((double) session.bytesPerSecond()) + ": in order";
        } catch (ProfileException wrong) {
            errors = wrong.errors();
        }
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("session-check/1");
            document.put("file", file.toString());
            document.put("inOrder", errors.isEmpty());
            document.put("errors", errors);
            print(document);
        } else if (errors.isEmpty()) {
            console.out().println(Inert.whole(file + ": " + good));
        }
        SessionsCommand.complainAbout(errors, console);
        return errors.isEmpty() ? Exit.DONE : Exit.USAGE;
    }
}
