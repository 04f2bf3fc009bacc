package tracksoak.bench.command.roster;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateNotYetValidException;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.net.ssl.SSLContext;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.RosterOption;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.exchange.Receipt;
import tracksoak.report.roster.exchange.RemoteRoster;
import tracksoak.report.roster.exchange.Sync;
import tracksoak.report.roster.exchange.Trust;

/** Both ways with the crew's server. */
@Command(
        name = "sync",
        header = "Exchange records, notes, withdrawals and keys with the crew's server, both ways.",
        description = {
            "May be cut off anywhere and done again: afterwards both sides have the same. Needs a crew token from whoever runs the "
                    + "server, in a file (--token-file) or in the environment (TRACKSOAK_CREW_TOKEN)."
        },
        sortOptions = false)
public final class RosterSyncCommand extends OneRosterCommand {

    /** Environment variable: the crew token. */
    static final String TOKEN = "TRACKSOAK_CREW_TOKEN";

    private static final Pattern ADDRESS =
            Pattern.compile("(https?)://([a-zA-Z0-9][a-zA-Z0-9.-]{0,252}|\\[[0-9a-fA-F:.]+])(:[0-9]{1,5})?/?");
    private static final Pattern HERE = Pattern.compile("localhost|127\\.[0-9.]+|\\[::1]");
    private static final int MOST_TOKEN_BYTES = 1_000;
    private static final int MOST_NAMED = 20;

    @Parameters(paramLabel = "URL", description = "Address of the server, such as https://roster.example:8432.")
    @SuppressWarnings("NullAway.Init")
    String url;

    @Option(
            names = "--token-file",
            paramLabel = "FILE",
            description = "File that holds the crew token and nothing else.")
    @Nullable
    Path tokenFile;

    @Option(
            names = "--trust",
            paramLabel = "FILE",
            description = "Trust the server's certificate in this file (PEM), where no authority vouches for it.")
    @Nullable
    Path trust;

    @Option(
            names = "--unencrypted",
            description =
                    "Allow http:// to another computer: everybody on the network can read along, the token included.")
    boolean unencrypted;

    public RosterSyncCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        RemoteRoster there = new RemoteRoster(address(), token(), trusted());
        Sync.Result result;
        try (Roster roster = rosterOption.open(rooms, console)) {
            result = Sync.run(roster.peer(), there, this::progress);
            RosterOption.tellSetAside(roster, console);
        }
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("roster-sync/1");
            document.put("fetched", result.fetched());
            document.put("handedOver", result.handedOver());
            print(document);
        } else {
            console.out()
                    .println("Fetched " + Count.inDigits(result.fetched().taken(), "event") + ", handed over "
                            + result.handedOver().taken() + ". "
                            + (result.same()
                                    ? "Both sides have the same now."
                                    : Count.inDigits(refused(result), "event")
                                            + " refused: the sides differ in them."));
            complain("here", result.fetched());
            complain("there", result.handedOver());
        }
        return result.same() ? Exit.DONE : Exit.COULD_NOT_RUN;
    }

    private static int refused(Sync.Result result) {
        return result.fetched().refused().size() + result.handedOver().refused().size();
    }

    private void progress(int fetched, int handedOver) {
        if (console.errIsTerminal()) {
            console.say("fetched " + fetched + ", handed over " + handedOver);
        }
    }

    private void complain(String where, Receipt receipt) {
        receipt.refused().stream()
                .limit(MOST_NAMED)
                .forEach(one ->
                        console.complain(Inert.whole("refused " + where + ": " + one.event() + ": " + one.why()), ""));
        if (receipt.refused().size() > MOST_NAMED) {
            console.complain("and " + (receipt.refused().size() - MOST_NAMED) + " more, see --json", "");
        }
    }

    private URI address() {
        Matcher parts = ADDRESS.matcher(url.strip());
        if (!parts.matches()) {
            throw Problem.askedWrong(
                    Inert.quoted(url) + " is no address of a roster", "give it as https://HOST or https://HOST:PORT");
        }
        if (parts.group(1).equals("http")
                && !unencrypted
                && !HERE.matcher(parts.group(2)).matches()) {
            throw Problem.askedWrong(
                    Inert.quoted(url) + " is not encrypted: the token would cross the network for everybody to read",
                    "give an https:// address, or say --unencrypted on purpose");
        }
        return URI.create(url.strip());
    }

    private String token() {
        String token = console.environment().get(TOKEN);
        Path file = tokenFile;
        if (file != null) {
            try (var in = Files.newInputStream(file)) {
                token = new String(in.readNBytes(MOST_TOKEN_BYTES), java.nio.charset.StandardCharsets.UTF_8);
            } catch (IOException e) {
                throw Problem.askedWrong(
                        Inert.quoted(file) + " cannot be read: " + Inert.whole(Failure.words(e)),
                        "check name and permissions");
            }
        }
        if (token == null || token.isBlank()) {
            throw Problem.askedWrong(
                    "no crew token was given",
                    "ask whoever runs the server for one, and give it with --token-file or in " + TOKEN);
        }
        String bare = token.strip();
        if (!bare.matches("[A-Za-z0-9_-]{1,200}")) {
            throw Problem.askedWrong(
                    "what was given is no crew token", "copy it again: one line that begins with crew-");
        }
        return bare;
    }

    private @Nullable SSLContext trusted() {
        Path file = trust;
        if (file == null) {
            return null;
        }
        try {
            return Trust.of(file);
        } catch (IOException e) {
            boolean date = e.getCause() instanceof CertificateExpiredException
                    || e.getCause() instanceof CertificateNotYetValidException;
            throw Problem.askedWrong(
                    Inert.quoted(file) + " holds no certificate that can be used: " + Inert.whole(Failure.words(e)),
                    date
                            ? "see whether this computer's date is right; else get the server's new one from whoever"
                                    + " runs it"
                            : "give the server's certificate: a file that begins with -----BEGIN CERTIFICATE-----");
        }
    }
}
