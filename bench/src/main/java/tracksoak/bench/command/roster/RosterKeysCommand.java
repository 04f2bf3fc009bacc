package tracksoak.bench.command.roster;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterAccess;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.sign.TesterKey;
import tracksoak.report.record.sign.VerifyKey;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterDesk;
import tracksoak.report.roster.standing.CrewKeys;

/** The testers' keys. */
@Command(
        name = "keys",
        header = "List the testers' keys; make one known, or revoke one.",
        description = {
            "A record gives trust only where its tester's key is known. Compare the key's id with the tester by voice before you "
                    + "make it known. Revoking is for good."
        },
        sortOptions = false)
public final class RosterKeysCommand extends OneRosterCommand {

    @Option(names = "--add", paramLabel = "KEY", description = "Make this public key known; needs --name.")
    @Nullable
    String add;

    @Option(names = "--name", paramLabel = "NAME", description = "Whose key it is.")
    @Nullable
    String name;

    @Option(names = "--revoke", paramLabel = "ID", description = "Revoke the key with this id; needs --why.")
    @Nullable
    String revoke;

    @Option(names = "--why", paramLabel = "TEXT", description = "Why.")
    @Nullable
    String why;

    public RosterKeysCommand(Console console, Rooms rooms) {
        super(console, rooms);
    }

    @Override
    public Integer call() {
        TesterKey own = RosterAccess.key(rooms);
        try (Roster roster = rosterOption.open(rooms, console)) {
            change(roster.desk(own));
            List<CrewKeys.Entry> keys = roster.keys().entries();
            if (json.asked) {
                Map<String, Object> document = JsonOption.document("roster-keys/1");
                document.put("own", own.id());
                document.put("ownKey", own.verifyKey().text());
                document.put("keys", keys.stream().map(RosterKeysCommand::json).toList());
                print(document);
            } else {
                print(keys, own);
            }
        }
        return Exit.DONE;
    }

    private void change(RosterDesk desk) {
        String key = add;
        String id = revoke;
        String whose = name;
        String reason = why == null ? "" : why.strip();
        if (key != null && id != null) {
            throw Problem.askedWrong("--add and --revoke exclude each other", "give one of them");
        }
        if (key == null && whose != null) {
            throw Problem.askedWrong("--name goes with --add", "give the key too, or leave --name out");
        }
        if (key == null && id == null && why != null) {
            throw Problem.askedWrong("--why goes with --add or --revoke", "give one of them, or leave --why out");
        }
        if (key != null) {
            if (whose == null) {
                throw Problem.askedWrong("--add needs --name", "say whose key it is");
            }
            desk.addKey(verifyKey(key.strip()), whose, reason);
        }
        if (id != null) {
            if (reason.isEmpty()) {
                throw Problem.askedWrong("--revoke needs --why", "say in a few words why; it stays in the roster");
            }
            desk.revokeKey(id, reason);
        }
    }

    private static VerifyKey verifyKey(String text) {
        try {
            return new VerifyKey(text);
        } catch (RecordException wrong) {
            throw new Problem(Problem.Kind.ASKED_WRONG, wrong.what(), wrong.which(), wrong.why(), wrong.todo());
        }
    }

    private void print(List<CrewKeys.Entry> keys, TesterKey own) {
        Table table = new Table("ID", "TESTER", "SINCE", "MADE KNOWN BY", "");
        for (CrewKeys.Entry key : keys) {
            Long revokedMs = key.revokedMs();
            String state = revokedMs == null
                    ? ""
                    : "revoked " + RosterText.day(Instant.ofEpochMilli(revokedMs)) + " by " + key.revokedBy() + ": "
                            + key.revokedWhy();
            table.row(key.id(), key.name(), RosterText.day(Instant.ofEpochMilli(key.addedMs())), key.addedBy(), state);
        }
        table.print(console);
        console.out().println();
        console.out()
                .println(Inert.whole("Yours: " + own.id() + " (" + own.name() + "), public key "
                        + own.verifyKey().text()));
    }

    private static Map<String, Object> json(CrewKeys.Entry key) {
        Map<String, Object> json = new LinkedHashMap<>();
        Long revokedMs = key.revokedMs();
        json.put("id", key.id());
        json.put("key", key.key());
        json.put("name", key.name());
        json.put("addedAt", Instant.ofEpochMilli(key.addedMs()).toString());
        json.put("addedBy", key.addedBy());
        json.put(
                "revokedAt",
                revokedMs == null ? null : Instant.ofEpochMilli(revokedMs).toString());
        json.put("revokedBy", key.revokedBy());
        json.put("revokedWhy", key.revokedWhy());
        return json;
    }
}
