package tracksoak.bench.command.roster;

import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.roster.web.server.CrewToken;
import tracksoak.report.roster.web.server.TokenFile;

/** Who may sync with the roster that this computer serves. */
@Command(
        name = "tokens",
        header = "List the crew tokens of the roster served here; give one, or revoke one.",
        description = {
            "A token is shown once, when it is given; only a hash is stored. Give each laptop its own, so that one that is lost "
                    + "can be revoked alone. A new or revoked token counts at once."
        },
        sortOptions = false)
public final class RosterTokensCommand extends JsonCommand {

    private static final int LONGEST_NAME = 80;
    private static final int MOST_DAYS = 3_650;

    @Option(names = "--add", paramLabel = "NAME", description = "Give a token to this person or laptop.")
    @Nullable
    String add;

    @Option(
            names = "--days",
            paramLabel = "N",
            description =
                    "With --add: it is worth nothing after so many days, 1 to 3650. Without it: until it is revoked.")
    @Nullable
    Integer days;

    @Option(names = "--revoke", paramLabel = "ID", description = "Revoke the token with this id.")
    @Nullable
    String revoke;

    public RosterTokensCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        TokenFile tokens = new TokenFile(rooms.rosterFolder().resolve(TokenFile.NAME));
        try {
            CrewToken.Fresh fresh = change(tokens);
            if (json.asked) {
                Map<String, Object> document = JsonOption.document("roster-tokens/1");
                document.put("token", fresh == null ? null : fresh.text());
                document.put(
                        "tokens",
                        tokens.all().stream().map(RosterTokensCommand::json).toList());
                print(document);
            } else if (fresh != null) {
                console.out().println(fresh.text());
                console.say("this is the token of " + Inert.whole(fresh.kept().holder())
                        + "; it is not shown again. For a sync: --token-file, or TRACKSOAK_CREW_TOKEN");
            } else {
                print(tokens.all());
            }
        } catch (Problem wrong) {
            throw complaint(wrong);
        }
        return Exit.DONE;
    }

    public static Problem complaint(Problem wrong) {
        return Problem.askedWrong(wrong.told(), wrong.todo());
    }

    private CrewToken.@Nullable Fresh change(TokenFile tokens) {
        String name = add == null ? null : add.strip();
        String id = revoke;
        Integer until = days;
        if (name != null && id != null) {
            throw Problem.askedWrong("--add and --revoke exclude each other", "give one of them");
        }
        if (name == null && until != null) {
            throw Problem.askedWrong("--days goes with --add", "leave it out, or give a token");
        }
        Instant now = Instant.ofEpochMilli(SystemClocks.EPOCH.epochMillis());
        if (id != null) {
            CrewToken token = tokens.byId(id.strip())
                    .orElseThrow(() -> Problem.askedWrong(
                            "no token has the id " + Inert.quoted(id), "tracksoak roster tokens lists them"));
            tokens.keep(token.revokedAt().isEmpty() ? token.revoked(now.toString()) : token);
        }
        if (name == null) {
            return null;
        }
        if (name.isEmpty() || name.length() > LONGEST_NAME || !Inert.whole(name).equals(name)) {
            throw Problem.askedWrong(
                    "--add is " + Inert.quoted(name) + ", which is no name of 1 to " + LONGEST_NAME
                            + " plain characters",
                    "say whose token it is");
        }
        if (until != null && (until < 1 || until > MOST_DAYS)) {
            throw Problem.askedWrong(
                    "--days is " + until + "; allowed: 1 to " + MOST_DAYS, "give a number in that range");
        }
        String ends = until == null ? "" : now.plus(Duration.ofDays(until)).toString();
        CrewToken.Fresh fresh = CrewToken.make(name, now.toString(), ends, new SecureRandom());
        tokens.keep(fresh.kept());
        return fresh;
    }

    private void print(List<CrewToken> tokens) {
        if (tokens.isEmpty()) {
            console.say("no token was given yet: tracksoak roster tokens --add NAME");
            return;
        }
        Table table = new Table("ID", "HOLDER", "SINCE", "");
        for (CrewToken token : tokens) {
            String state = !token.revokedAt().isEmpty()
                    ? "revoked " + day(token.revokedAt())
                    : token.until().isEmpty() ? "" : "until " + day(token.until());
            table.row(token.id(), token.holder(), day(token.madeAt()), state);
        }
        table.print(console);
    }

    private static String day(String instant) {
        return RosterText.day(Instant.parse(instant));
    }

    private static Map<String, Object> json(CrewToken token) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("id", token.id());
        json.put("holder", token.holder());
        json.put("madeAt", token.madeAt());
        json.put("until", token.until().isEmpty() ? null : token.until());
        json.put("revokedAt", token.revokedAt().isEmpty() ? null : token.revokedAt());
        return json;
    }
}
