package tracksoak.bench.command.roster;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.server.Limits;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.TokenFile;

/** The roster as a web page, and for laptops that sync. */
@Command(
        name = "serve",
        header = "Serve the roster: pages for phones, and syncs for laptops.",
        description = {
            "Only this computer reaches it unless you give an address with --bind. Reading is open to whoever reaches it, unless "
                    + "--closed; a laptop that syncs needs a crew token, see tracksoak roster tokens.",
            "Ctrl-C ends it; what was acknowledged is kept."
        },
        sortOptions = false)
public final class RosterServeCommand extends OneRosterCommand {

    @Option(
            names = "--bind",
            paramLabel = "ADDRESS",
            defaultValue = "127.0.0.1",
            description = "IP address to listen on, 0.0.0.0 for all of this computer's: ${DEFAULT-VALUE}.")
    String bind = "127.0.0.1";

    @Option(
            names = "--port",
            paramLabel = "N",
            defaultValue = "8432",
            description = "Port to listen on, 0 for any free one: ${DEFAULT-VALUE}.")
    int port;

    @Option(
            names = "--certificate",
            paramLabel = "FILE",
            description = "Certificate (PEM, with its chain), for an encrypted connection; with --key.")
    @Nullable
    Path certificate;

    @Option(names = "--key", paramLabel = "FILE", description = "Its private key (PEM, PKCS #8, unencrypted).")
    @Nullable
    Path key;

    @Option(
            names = "--unencrypted",
            description =
                    "Serve another address than this computer's own without a certificate: everybody on the network can "
                            + "read along, tokens included.")
    boolean unencrypted;

    @Option(names = "--closed", description = "Reading needs a crew token, too.")
    boolean closed;

    @Option(
            names = "--name",
            paramLabel = "HOST",
            split = ",",
            description = "Further names by which the server is called, separated by commas.")
    @Nullable
    List<String> names;

    @Option(
            names = "--address",
            paramLabel = "URL",
            description =
                    "How phones reach it, for the codes on labels: https://roster.example:8432. Without it: as asked for.")
    @Nullable
    String address;

    @Option(names = "--log-requests", description = "Print one line per request.")
    boolean logRequests;

    private final StopSignal stop;

    public RosterServeCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms);
        this.stop = stop;
    }

    @Override
    public Integer call() throws InterruptedException {
        TokenFile tokens = new TokenFile(rooms.rosterFolder().resolve(TokenFile.NAME));
        try (Roster roster = rosterOption.open(rooms, console)) {
            boolean nobody;
            RosterServer server;
            try {
                nobody = tokens.all().stream()
                        .noneMatch(token -> token.revokedAt().isEmpty());
                server = RosterSite.serve(
                        settings(),
                        roster,
                        SessionCatalog.of(rooms.sessionsFolder()).all(),
                        tokens,
                        RosterAccess.clock(),
                        RosterServing.log(console, logRequests));
            } catch (Problem wrong) {
                throw RosterTokensCommand.complaint(wrong);
            }
            return RosterServing.untilStopped(server, stop, started -> say(started, nobody), () -> {});
        }
    }

    private RosterSettings settings() {
        List<String> called = names == null
                ? List.of()
                : names.stream()
                        .map(name -> name.strip().toLowerCase(Locale.ROOT))
                        .toList();
        return new RosterSettings(bind, port, certificate, key, unencrypted, !closed, called, address, Limits.usual());
    }

    private void say(RosterServer server, boolean nobody) {
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("roster-serve/1");
            document.put("address", server.address());
            document.put("port", server.port());
            print(document);
        } else {
            console.out().println("The roster is at " + server.address() + "  (Ctrl-C ends it)");
            if (nobody) {
                console.say(
                        closed
                                ? "nobody can read it yet: give a token with tracksoak roster tokens --add NAME"
                                : "nobody can sync with it yet: give a token with tracksoak roster tokens --add NAME");
            }
        }
        console.out().flush();
    }
}
