package tracksoak.bench.command.roster;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.command.drives.DriveText;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.report.roster.Board;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Conflict;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.Evidence;
import tracksoak.report.roster.standing.LastRun;
import tracksoak.report.roster.standing.SessionStanding;
import tracksoak.report.roster.standing.Standing;

/** A list of drives, for people and for programs. Days are those of UTC. */
public final class RosterText {

    private RosterText() {}

    /**
     * Prints a list.
     *
     * @param rosterTyped the roster as it was named in the command line, for commands about it
     */
    public static void print(
            Board board, BoardQuery query, List<Conflict> conflicts, String rosterTyped, Console console) {
        Session session = query.session();
        if (board.rows().isEmpty()) {
            if (board.held() == 0) {
                console.say("the roster holds no drive yet; every qualify enters its record by itself");
            } else if (board.unsettled() == 0) {
                console.say("no drive on the roster fits what you asked for; tracksoak roster list shows them all");
            }
        } else {
            Table table =
                    new Table("DRIVE", "MAKER AND MODEL", ">SIZE", "SESSION", "STANDING", "MIN SEEN", "UNTIL", "");
            // a crew's thousands of drives are of a few sizes
            Map<Long, String> sizes = new ConcurrentHashMap<>();
            table.rows(board.rows(), row -> {
                DriveIdentity identity = row.drive().identity();
                Long bytes = identity == null ? null : identity.sizeBytes();
                return new String[] {
                    row.label(),
                    row.title(),
                    bytes == null ? DriveText.bytes(null) : sizes.computeIfAbsent(bytes, DriveText::bytes),
                    row.session(),
                    row.standing().standing().word(),
                    seen(row.standing().evidence()),
                    day(row.standing().validUntil()),
                    row.conflicts().isEmpty() ? "" : "tag to settle"
                };
            });
            table.print(console);
        }
        if (board.unsettled() > 0) {
            console.say(Count.inDigits(board.unsettled(), "drive")
                    + (board.rows().isEmpty() ? "" : " more")
                    + (board.unsettled() == 1
                            ? ", not offered until the tag is settled"
                            : ", none offered until the tag is settled"));
        }
        if (session != null && query.standings().isEmpty()) {
            StringBuilder sums = new StringBuilder("for " + Inert.whole(session.name()) + ":");
            board.counts()
                    .forEach((standing, count) ->
                            sums.append(' ').append(count).append(' ').append(standing.word()));
            console.say(sums.toString());
        }
        for (Conflict conflict : conflicts) {
            console.complain(Inert.whole(conflict.sentence()), conflict.todo(rosterTyped));
        }
    }

    public static Map<String, Object> json(Board board, BoardQuery query, List<Conflict> conflicts) {
        Map<String, Object> document = JsonOption.document("roster/1");
        Session session = query.session();
        document.put("at", board.at().toString());
        document.put("session", session == null ? null : session.name());
        Map<String, Object> counts = new LinkedHashMap<>();
        for (Standing standing : Standing.values()) {
            counts.put(standing.word(), board.counts().getOrDefault(standing, 0));
        }
        document.put("counts", counts);
        document.put("drives", board.rows().stream().map(RosterText::json).toList());
        document.put("conflicts", conflicts.stream().map(RosterText::json).toList());
        return document;
    }

    /** One drive. */
    public static Map<String, Object> json(BoardRow row) {
        DriveState drive = row.drive();
        DriveIdentity identity = drive.identity();
        LastRun last = drive.lastRun();
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("drive", drive.id());
        json.put("tags", drive.tags());
        json.put("maker", identity == null ? null : identity.maker());
        json.put("model", identity == null ? null : identity.model());
        json.put("serial", identity == null ? null : identity.serial());
        json.put("sizeBytes", identity == null ? null : identity.sizeBytes());
        json.put("session", row.session());
        json.put("standing", row.standing().standing().word());
        json.put("since", text(row.standing().since()));
        json.put("validUntil", text(row.standing().validUntil()));
        json.put("why", row.standing().why());
        json.put("evidence", json(row.standing()));
        json.put("wholeCapacity", row.standing().wholeCapacity());
        json.put("tracksCarried", row.tracksCarried());
        json.put("bytesPerSecondCarried", row.bytesPerSecondCarried());
        json.put("records", drive.records());
        json.put("unsignedRecords", drive.unsigned());
        json.put("doubtfulRecords", drive.doubtful());
        json.put(
                "lastRunAt",
                last == null ? null : Instant.ofEpochMilli(last.endedAtMs()).toString());
        json.put("lastVerdict", last == null ? null : last.outcome());
        json.put("lastNote", drive.lastNote());
        json.put("conflicts", row.conflicts().stream().map(RosterText::json).toList());
        return json;
    }

    /** What was seen and what is wanting for trusted; null where nothing counts. */
    private static @Nullable Map<String, Object> json(SessionStanding standing) {
        Evidence seen = standing.evidence();
        if (seen == null) {
            return null;
        }
        boolean enough = standing.standing() == Standing.TRUSTED;
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("seenSeconds", seen.paceMs() / 1000.0);
        json.put("provenBytes", seen.provenBytes());
        json.put("neededSeconds", seen.neededMs() / 1000.0);
        json.put("neededBytes", seen.neededBytes());
        json.put("wantingSeconds", enough ? 0 : seen.wantingMs() / 1000.0);
        json.put("wantingBytes", enough ? 0 : seen.wantingBytes());
        return json;
    }

    private static String seen(@Nullable Evidence evidence) {
        return evidence == null ? "-" : evidence.minutes().replace(" min", "");
    }

    private static Map<String, Object> json(Conflict conflict) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("kind", conflict.kind());
        json.put("tags", conflict.tags());
        json.put("drives", conflict.drives());
        json.put("sentence", conflict.sentence());
        return json;
    }

    static @Nullable String text(@Nullable Instant at) {
        return at == null ? null : at.toString();
    }

    static String day(@Nullable Instant at) {
        return at == null ? "-" : at.atZone(ZoneOffset.UTC).toLocalDate().toString();
    }
}
