package tracksoak.report.roster.web.page;

import java.net.InetAddress;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.eclipse.jetty.http.HttpHeader;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Times;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.BoardRow;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.standing.Evidence;
import tracksoak.report.roster.standing.Standing;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.page.view.Label;
import tracksoak.report.roster.web.page.view.LabelPage;
import tracksoak.report.roster.web.page.view.Option;
import tracksoak.report.roster.web.server.Exchange;
import tracksoak.report.roster.web.server.RosterSettings;

/** Labels to print and stick on drives. Any thread. */
final class Labels {

    private static final int MOST_LABELS = 240;
    private static final int SHORT_TAG = 8;
    private static final long MINUTE_MS = 60_000;
    private static final int LONG_TAG = 14;

    /** A code leads nowhere from a phone that cannot reach the server. */
    private static final String NO_CODE =
            "These labels bear no code: only this computer can open these pages. Where the crew's roster is served to"
                    + " phones (tracksoak roster serve), its labels lead to the drive's page.";

    private static final Pattern PORT = Pattern.compile(":[0-9]+$");

    private final Roster roster;
    private final RosterSettings settings;

    Labels(Roster roster, RosterSettings settings) {
        this.roster = roster;
        this.settings = settings;
    }

    LabelPage page(Exchange exchange, SessionChoices sessions, Frame frame) {
        LabelSize size = LabelSize.of(exchange.parameter("size"));
        QueryParameters query = QueryParameters.of(exchange, sessions);
        String drive = exchange.parameter("drive");
        Session session = query.session() == null ? null : query.session().session();
        List<BoardRow> rows = drive.isEmpty()
                ? roster.board(query.board().page(query.from(), MOST_LABELS)).rows()
                : named(drive).map(one -> roster.drive(one, session)).toList();
        if (!drive.isEmpty() && rows.isEmpty()) {
            throw Exchange.bad("drive", "it names none");
        }
        String base = base(exchange);
        List<Option> keep = new ArrayList<>(query.kept());
        if (!drive.isEmpty()) {
            keep.add(new Option("drive", Shown.of(drive), false));
        }
        return new LabelPage(
                frame,
                size.code(),
                LabelSize.options(size),
                keep,
                rows.size() == 1 ? "One label." : rows.size() + " labels.",
                base.isEmpty() ? NO_CODE : "",
                rows.stream()
                        .map(row -> label(row, base, size, session != null))
                        .toList());
    }

    private static Stream<String> named(String drives) {
        return Arrays.stream(drives.split(",")).map(String::strip).filter(one -> !one.isEmpty());
    }

    /** Names the page among all of them, by all it depends on. */
    String name(Exchange exchange, SessionChoices sessions) {
        return String.join(
                " ",
                LabelSize.of(exchange.parameter("size")).code(),
                exchange.parameter("drive"),
                QueryParameters.of(exchange, sessions).href(""),
                base(exchange));
    }

    /** Where a phone that reads the code finds the server; empty where no other computer can. */
    private String base(Exchange exchange) {
        String given = settings.address();
        if (given != null) {
            return given;
        }
        String host = String.valueOf(exchange.header(HttpHeader.HOST));
        boolean named =
                settings.names().contains(PORT.matcher(host).replaceFirst("").toLowerCase(Locale.ROOT));
        InetAddress local = exchange.local();
        return local != null && local.isLoopbackAddress() && !named
                ? ""
                : (settings.encrypted() ? "https://" : "http://") + host;
    }

    /**
     * A drive is trusted for a session and no other, so the label names it; that of the last run where nobody asked.
     *
     * @param asked whether somebody chose the session
     */
    private static Label label(BoardRow row, String base, LabelSize size, boolean asked) {
        QrPath code = base.isEmpty() ? null : QrPath.of(base + Rows.href(row), size == LabelSize.ROLL_40X20);
        List<String> tags = row.drive().tags();
        String tag = tags.isEmpty() ? row.drive().id() : tags.get(0);
        long last = row.drive().lastRecordMs();
        Instant until = row.standing().validUntil();
        String state = row.standing().standing().word();
        Evidence seen =
                row.standing().standing() == Standing.CLEARED ? row.standing().evidence() : null;
        String word = seen == null ? state : state + " " + together(seen.paceMs() / MINUTE_MS + " min");
        Session carried = row.carried();
        return new Label(
                Shown.of(tag),
                tag.length() > LONG_TAG ? "tag longest" : tag.length() > SHORT_TAG ? "tag long" : "tag",
                state,
                word,
                row.conflicts().stream()
                        .map(conflict -> switch (conflict.kind()) {
                            case TAG_ON_SEVERAL_DRIVES -> "tag is on another drive, too";
                            case DRIVE_UNDER_SEVERAL_TAGS ->
                                tags.size() == 2
                                        ? "also tagged " + tags.get(1) + ", to be settled"
                                        : tags.size() - 1 + " more tags, to be settled";
                        })
                        .distinct()
                        .collect(Collectors.joining("; ")),
                Shown.of(row.standing().standing() == Standing.WITHDRAWN ? "" : row.session()),
                last == 0 ? "" : row.future() ? "by a wrong clock" : Times.day(Instant.ofEpochMilli(last)),
                Times.day(until),
                carried == null || !asked ? "" : together(Carried.of(carried)),
                code == null ? 0 : code.size(),
                code == null ? "" : code.path());
    }

    /** A figure and its unit stay on one line of a narrow label. */
    private static String together(String carried) {
        return carried.replace(" min", "\u00A0min").replace(" kHz", "\u00A0kHz").replace("-bit", "\u2011bit");
    }
}
