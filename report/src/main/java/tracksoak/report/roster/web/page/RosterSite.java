package tracksoak.report.roster.web.page;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Times;
import tracksoak.report.page.ReportPage;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterCsv;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.page.view.TablePage;
import tracksoak.report.roster.web.page.view.TroublePage;
import tracksoak.report.roster.web.server.Exchange;
import tracksoak.report.roster.web.server.HttpAnswer;
import tracksoak.report.roster.web.server.Refusal;
import tracksoak.report.roster.web.server.RosterServer;
import tracksoak.report.roster.web.server.RosterSettings;
import tracksoak.report.roster.web.server.Route;
import tracksoak.report.roster.web.server.ServerLog;
import tracksoak.report.roster.web.server.Site;
import tracksoak.report.roster.web.server.TokenFile;

/** The roster's addresses: pages, reports, lists, and what laptops ask for when they sync. Any thread. */
public final class RosterSite {

    private static final String DRIVE = "/drives/([A-Za-z0-9._-]{1,80})";
    private static final String RECORD = "/records/([0-9a-f]{64})";

    private final Roster roster;
    private final InstantSource clock;
    private final Supplier<SessionChoices> sessions;
    private final boolean closed;
    private final Tables tables;
    private final Drives drives;
    private final Labels labels;
    private final SyncDesk syncs;
    private final StaticFiles assets = new StaticFiles();

    /**
     * Starts serving a roster.
     *
     * @param own sessions to ask about, besides those that records were made for
     * @param tokens who may write, and read where reading is closed
     * @param log never gets a token
     * @throws tracksoak.profiles.base.Problem if the certificate cannot be used or the address is taken
     */
    public static RosterServer serve(
            RosterSettings settings,
            Roster roster,
            List<Session> own,
            TokenFile tokens,
            InstantSource clock,
            ServerLog log) {
        RosterSite site = new RosterSite(roster, own, settings, clock);
        return RosterServer.start(
                settings, new Site(site.routes(), site::mark, site::page, site::loginPage), tokens, clock, log);
    }

    private RosterSite(Roster roster, List<Session> own, RosterSettings settings, InstantSource clock) {
        this.roster = roster;
        this.clock = clock;
        this.sessions = new FreshSessionChoices(roster, own);
        this.closed = !settings.openReading();
        this.tables = new Tables(roster);
        this.drives = new Drives(roster, new Figures(roster::record));
        this.labels = new Labels(roster, settings);
        this.syncs = new SyncDesk(roster.peer(), settings.limits().bodyBytes());
    }

    private List<Route> routes() {
        List<Route> routes = new ArrayList<>(List.of(
                read("/", exchange -> page(Pages.table(table(exchange)))),
                read(
                        "/tonight",
                        exchange -> page(Pages.tonight(tables.tonight(exchange, sessions.get(), frame("tonight"))))),
                read("/drives\\.csv", exchange -> csv(QueryParameters.of(exchange, sessions.get()))),
                read("/labels", exchange -> page(Pages.labels(labels.page(exchange, sessions.get(), frame("labels"))))),
                Route.get(
                        DRIVE,
                        Route.Access.READERS,
                        (exchange, path, body) ->
                                page(Pages.drive(drives.page(path.group(1), sessions.get(), frame(""))))),
                Route.get(RECORD, Route.Access.READERS, (exchange, path, body) -> report(path.group(1))),
                Route.get(RECORD + "\\.json", Route.Access.READERS, (exchange, path, body) -> record(path.group(1))),
                Route.get(
                        "/assets/([a-z.]{1,40})",
                        Route.Access.ANYBODY,
                        (exchange, path, body) -> assets.of(path.group(1)))));
        routes.addAll(syncs.routes());
        return routes;
    }

    private interface Reading {
        HttpAnswer of(Exchange exchange);
    }

    private static Route read(String path, Reading reading) {
        return Route.get(path, Route.Access.READERS, (exchange, matched, body) -> reading.of(exchange));
    }

    private TablePage table(Exchange exchange) {
        SessionChoices known = sessions.get();
        return tables.table(QueryParameters.of(exchange, known), known, frame("drives"));
    }

    private static HttpAnswer page(String html) {
        return HttpAnswer.html(html);
    }

    private HttpAnswer csv(QueryParameters query) {
        StringBuilder csv = new StringBuilder();
        try {
            RosterCsv.write(roster.board(query.board().page(0, BoardQuery.MOST_ROWS)), csv);
        } catch (IOException impossible) {
            throw new UncheckedIOException(impossible);
        }
        return HttpAnswer.of(
                        "text/csv;charset=utf-8;header=present", csv.toString().getBytes(StandardCharsets.UTF_8))
                .with("Content-Disposition", "attachment; filename=\"drives.csv\"");
    }

    /** A report brings its own script and style; its policy lets them run by their hashes and nothing else. */
    private HttpAnswer report(String sha256) {
        return HttpAnswer.html(ReportPage.render(roster.record(sha256)))
                .with("Content-Security-Policy", ReportPage.policy() + "; frame-ancestors 'none'")
                .with("Cache-Control", "private, max-age=86400");
    }

    private HttpAnswer record(String sha256) {
        SignedRecord signed = roster.signedRecord(sha256);
        return HttpAnswer.of(HttpAnswer.JSON, signed.canonical())
                .with("Content-Disposition", "attachment; filename=\"record-" + sha256.substring(0, 12) + ".json\"")
                .with("Cache-Control", "private, max-age=86400");
    }

    private String mark() {
        return Long.toString(roster.version());
    }

    private String page(Refusal refusal) {
        return trouble(
                sentence(refusal.what()),
                (refusal.which().isEmpty() ? "" : refusal.which() + ": ") + refusal.why(),
                refusal.todo(),
                false);
    }

    private String loginPage(@Nullable Refusal before) {
        return before == null
                ? trouble(
                        "Enter the roster",
                        "",
                        closed
                                ? "This roster is read with a crew token. Whoever runs the server gives you one."
                                : "Everybody who reaches this server may read. A token is needed only to sync a laptop.",
                        true)
                : trouble("This token does not open the roster", before.why(), before.todo(), true);
    }

    private String trouble(String heading, String why, String whatToDo, boolean form) {
        return Pages.trouble(new TroublePage(
                new Frame(heading + " – drive roster", "", closed, "", ""),
                heading,
                Shown.whole(why),
                Shown.whole(sentence(whatToDo)),
                form));
    }

    private Frame frame(String here) {
        String title = switch (here) {
            case "drives" -> "Drives";
            case "tonight" -> "What to take tonight";
            case "labels" -> "Labels";
            default -> "Drive";
        };
        return new Frame(
                title + " – drive roster",
                here,
                closed,
                "As of " + Times.minute(clock.instant()) + ".",
                here.equals("labels") ? "" : mark());
    }

    private static String sentence(String text) {
        return text.isEmpty() ? "" : Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }
}
