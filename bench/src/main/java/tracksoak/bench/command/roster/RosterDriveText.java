package tracksoak.bench.command.roster;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.command.console.Wrapped;
import tracksoak.profiles.base.KebabCase;
import tracksoak.report.record.sign.SignatureState;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Conflict;
import tracksoak.report.roster.HistoryEntry;
import tracksoak.report.roster.event.RosterEvent;
import tracksoak.report.roster.standing.RecordDigest;

/** A drive with its history, for people and for programs. */
final class RosterDriveText {

    private static final DateTimeFormatter MINUTE =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT).withZone(ZoneOffset.UTC);

    private RosterDriveText() {}

    static void print(BoardRow row, List<HistoryEntry> history, String rosterTyped, Console console) {
        Wrapped out = new Wrapped(console);
        out.print("", 2, row.label() + "  " + row.title());
        out.print("  id: ", row.drive().id());
        out.print(
                "  standing: ",
                row.standing().standing().word() + (row.session().isEmpty() ? "" : " for " + row.session()));
        out.print("  why: ", row.standing().why());
        if (row.standing().validUntil() != null) {
            out.print("  valid until: ", RosterText.day(row.standing().validUntil()));
        }
        for (Conflict conflict : row.conflicts()) {
            out.print("  to settle: ", conflict.sentence());
            conflict.todo(rosterTyped).lines().forEach(line -> out.print("    ", line));
        }
        console.out().println();
        Table table = new Table("WHEN (UTC)", "WHO", "WHAT", "", "");
        for (HistoryEntry entry : history) {
            RosterEvent event = entry.event();
            table.row(
                    MINUTE.format(event.at()),
                    event.by(),
                    event.kind().word().replace('-', ' '),
                    what(entry),
                    remark(entry));
        }
        table.print(console);
    }

    private static String what(HistoryEntry entry) {
        RecordDigest digest = entry.digest();
        if (digest != null) {
            return digest.outcome().words() + ", " + digest.plan() + (digest.shortened() ? " (shortened)" : "")
                    + " for " + digest.session();
        }
        String tag = entry.event().tag();
        String why = entry.event().why();
        return (tag == null ? "" : tag + (why.isEmpty() ? "" : ": ")) + why;
    }

    private static String remark(HistoryEntry entry) {
        StringBuilder remark = new StringBuilder();
        if (entry.author() != SignatureState.GOOD) {
            remark.append("signature: ").append(KebabCase.of(entry.author())).append("; ");
        }
        SignatureState record = entry.record();
        if (record != null && record != SignatureState.GOOD) {
            remark.append("record's signature: ").append(KebabCase.of(record)).append("; ");
        }
        if (entry.digest() != null && !entry.digest().doubt().isEmpty()) {
            remark.append(entry.digest().doubt()).append(' ');
        }
        String tag = entry.tagAloneLifted();
        String lifted = tag != null ? "its tag " + tag + " taken back; " : entry.lifted() ? "taken back; " : "";
        remark.append(lifted).append(entry.future() ? "dated in the future; " : "");
        return remark.toString().strip().replaceAll(";$", "");
    }

    static Map<String, Object> json(BoardRow row, List<HistoryEntry> history) {
        Map<String, Object> document = JsonOption.document("roster-drive/1");
        document.putAll(RosterText.json(row));
        document.put("history", history.stream().map(RosterDriveText::json).toList());
        return document;
    }

    private static Map<String, Object> json(HistoryEntry entry) {
        Map<String, Object> json = json(entry.event());
        RecordDigest digest = entry.digest();
        json.put("signature", entry.author());
        json.put("lifted", entry.lifted());
        json.put("future", entry.future());
        if (digest != null) {
            json.put("record", digest.sha256());
            json.put("run", digest.runId());
            json.put("outcome", digest.outcome());
            json.put("plan", digest.plan());
            json.put("shortened", digest.shortened());
            json.put("session", digest.session());
            json.put("doubt", digest.doubt());
            json.put("recordSignature", entry.record());
        }
        return json;
    }

    /** One event. */
    static Map<String, Object> json(RosterEvent event) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("event", event.ref());
        json.put("kind", event.kind().word());
        json.put("at", event.at().toString());
        json.put("by", event.by());
        json.put("keyId", event.keyId());
        json.put("drive", event.drive());
        json.put("tag", event.tag());
        json.put("why", event.why());
        return json;
    }
}
