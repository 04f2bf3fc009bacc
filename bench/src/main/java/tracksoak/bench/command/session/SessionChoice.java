package tracksoak.bench.command.session;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** Which session it is for: one that has a name, or one in a file. */
public final class SessionChoice {

    @Option(
            names = {"-s", "--session"},
            paramLabel = "NAME",
            description = "The session it is for; tracksoak sessions lists them.")
    @Nullable
    String name;

    @Option(names = "--session-file", paramLabel = "FILE", description = "A session file of your own (TOML).")
    @Nullable
    Path file;

    /** The session of that name. */
    public static SessionChoice named(String name) {
        SessionChoice choice = new SessionChoice();
        choice.name = name;
        return choice;
    }

    public boolean given() {
        return name != null || file != null;
    }

    /** The session asked for. */
    public Session resolve(Rooms rooms) {
        String asked = name;
        Path own = file;
        if (asked != null && own != null) {
            throw Problem.askedWrong(
                    "--session " + Inert.quoted(asked) + " and --session-file " + Inert.quoted(own)
                            + " exclude each other",
                    "give one of them");
        }
        if (own != null) {
            return SessionReader.read(own);
        }
        if (asked == null) {
            throw Problem.askedWrong(
                    "no session was given, so it is not known what the drive must carry",
                    "add --session NAME (tracksoak sessions lists them) or --session-file FILE");
        }
        return SessionCatalog.find(rooms.sessionsFolder(), asked);
    }
}
