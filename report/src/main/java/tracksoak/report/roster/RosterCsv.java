package tracksoak.report.roster;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.Evidence;
import tracksoak.report.roster.standing.LastRun;
import tracksoak.report.roster.standing.Standing;

/**
 * Lists as comma-separated values (RFC 4180): a head line, CRLF line ends, times in UTC. A text that a spreadsheet would take for a
 * formula has an apostrophe put before it. Stateless.
 */
public final class RosterCsv {

    private static final String HEAD =
            "tag,drive,maker_and_model,serial,size_bytes,session,standing,since,valid_until,why,"
                    + "tracks_carried,bytes_per_second_carried,whole_capacity_proven,records,last_run,"
                    + "last_verdict,to_settle,last_note,minutes_seen,bytes_proven,minutes_wanting,"
                    + "bytes_wanting\r\n";

    private RosterCsv() {}

    /** Writes the rows of a list. */
    public static void write(Board board, Appendable out) throws IOException {
        out.append(HEAD);
        for (BoardRow row : board.rows()) {
            out.append(line(fields(row)));
        }
    }

    private static List<String> fields(BoardRow row) {
        DriveIdentity identity = row.drive().identity();
        LastRun last = row.drive().lastRun();
        Evidence seen = row.standing().evidence();
        return List.of(
                String.join(" ", row.drive().tags()),
                row.drive().id(),
                row.title(),
                identity == null ? "" : Inert.text(identity.serial()),
                identity == null ? "" : text(identity.sizeBytes()),
                row.session(),
                row.standing().standing().word(),
                text(row.standing().since()),
                text(row.standing().validUntil()),
                Inert.text(row.standing().why()),
                text(row.tracksCarried()),
                text(row.bytesPerSecondCarried()),
                row.carried() == null ? "" : row.standing().wholeCapacity() ? "yes" : "no",
                Integer.toString(row.drive().records()),
                last == null ? "" : text(Instant.ofEpochMilli(last.endedAtMs())),
                last == null ? "" : last.outcome().name(),
                row.conflicts().stream().map(Conflict::sentence).collect(Collectors.joining(" ")),
                Inert.text(row.drive().lastNote()),
                seen == null ? "" : minutes(seen.paceMs()),
                seen == null ? "" : Long.toString(seen.provenBytes()),
                seen == null || row.standing().standing() == Standing.TRUSTED ? "" : minutes(seen.wantingMs()),
                seen == null || row.standing().standing() == Standing.TRUSTED
                        ? ""
                        : Long.toString(seen.wantingBytes()));
    }

    private static String minutes(long ms) {
        return String.format(Locale.ROOT, "%.2f", ms / 60_000.0);
    }

    private static String text(@Nullable Object value) {
        return value == null ? "" : value.toString();
    }

    /** One line of fields, each as it must be written. */
    static String line(List<String> fields) {
        return fields.stream().map(RosterCsv::field).collect(Collectors.joining(",")) + "\r\n";
    }

    /** Spreadsheets take these for the beginning of a formula, wide forms and after white space included. */
    private static boolean formula(String text) {
        String bare = text.stripLeading();
        boolean sign = !bare.isEmpty() && "=+-@\uFF1D\uFF0B\uFF0D\uFF20".indexOf(bare.charAt(0)) >= 0;
        return sign || (!text.isEmpty() && "\t\r\n".indexOf(text.charAt(0)) >= 0);
    }

    private static String field(String raw) {
        String text = formula(raw) ? "'" + raw : raw;
        boolean plain = text.chars().noneMatch(c -> c == '"' || c == ',' || c == '\r' || c == '\n' || c == ';')
                && text.equals(text.strip());
        return plain ? text : '"' + text.replace("\"", "\"\"") + '"';
    }
}
