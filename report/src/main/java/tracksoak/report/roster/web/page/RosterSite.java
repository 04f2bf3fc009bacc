package tracksoak.report.roster.web.page;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Times;
import tracksoak.report.page.ReportPage;
import tracksoak.report.page.view.Shown;
import tracksoak.report.page.view.Templates;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.sign.SignedRecord;
import tracksoak.report.roster.BoardQuery;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.RosterCsv;
import tracksoak.report.roster.web.page.view.Frame;
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

    private static final long MOST_KEPT_BYTES = 48L << 20;

    private final Roster roster;
    private final InstantSource clock;
    private final Supplier<SessionChoices> sessions;
    private final boolean closed;
    private final Tables tables;
    private final Drives drives;
    private final Labels labels;
    private final SyncDesk syncs;
    private final @Nullable Annex annex;
    private final KeptPages pages = new KeptPages(MOST_KEPT_BYTES);
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
        RosterSite site = new RosterSite(roster, own, settings, clock, null);
        Site served = new Site(site.routes(), site::mark, site::page, site::loginPage, Site.Ways.TYPED_TOKEN);
        return RosterServer.start(settings, served, tokens, clock, log);
    }

    /** What is served beside a roster, at addresses of its own. */
    public interface Annex {

        /** Its addresses. */
        List<Route> routes();

        /** How far it is: changes whenever one of its pages would. */
        String mark();

        /** What to do for somebody who came without having been let in. */
        String wayIn();
    }

    /** Starts serving a roster with something beside it, for this computer alone. Everything as in the other way to serve. */
    public static RosterServer serve(
            RosterSettings settings,
            Roster roster,
            List<Session> own,
            TokenFile tokens,
            InstantSource clock,
            ServerLog log,
            Annex annex) {
        RosterSite site = new RosterSite(roster, own, settings, clock, annex);
        List<Route> routes = new ArrayList<>(site.routes());
        routes.addAll(annex.routes());
        Site served = new Site(
                routes, () -> site.mark() + "/" + annex.mark(), site::page, site::loginPage, Site.Ways.KEY_IN_ADDRESS);
        return RosterServer.start(settings, served, tokens, clock, log);
    }

    private RosterSite(
            Roster roster, List<Session> own, RosterSettings settings, InstantSource clock, @Nullable Annex annex) {
        this.annex = annex;
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
                read("/", this::table),
                read("/tonight", this::tonight),
                read("/drives\\.csv", this::csv),
                read("/labels", this::labels),
                Route.get(DRIVE, Route.Access.READERS, (exchange, path, body) -> drive(path.group(1))),
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

    /** Shows the roster as it is now, to the minute; made once for all who ask for it. */
    private HttpAnswer kept(String name, Supplier<HttpAnswer> make) {
        return pages.of(name, mark() + " " + Times.minute(clock.instant()), make);
    }

    private HttpAnswer table(Exchange exchange) {
        SessionChoices known = sessions.get();
        QueryParameters query = QueryParameters.of(exchange, known);
        return kept(
                "table " + query.href(""),
                () -> HttpAnswer.html(Templates.html("roster/table", tables.table(query, known, frame("drives")))));
    }

    private HttpAnswer tonight(Exchange exchange) {
        return kept(
                "tonight " + exchange.parameter("session"),
                () -> HttpAnswer.html(
                        Templates.html("roster/tonight", tables.tonight(exchange, sessions.get(), frame("tonight")))));
    }

    private HttpAnswer labels(Exchange exchange) {
        SessionChoices known = sessions.get();
        return kept(
                "labels " + labels.name(exchange, known),
                () -> HttpAnswer.html(Templates.html("roster/labels", labels.page(exchange, known, frame("labels")))));
    }

    private HttpAnswer drive(String drive) {
        return kept(
                "drive " + drive,
                () -> HttpAnswer.html(Templates.html("roster/drive", drives.page(drive, sessions.get(), frame("")))));
    }

    private HttpAnswer csv(Exchange exchange) {
        QueryParameters query = QueryParameters.of(exchange, sessions.get());
        return kept("csv " + query.href(""), () -> csv(query));
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
        return pages.of(
                "report " + sha256,
                "",
                () -> HttpAnswer.html(rendered(sha256))
                        .with("Content-Security-Policy", ReportPage.policy() + "; frame-ancestors 'none'")
                        .with("Cache-Control", "private, max-age=86400"));
    }

    private String rendered(String sha256) {
        RunRecord record;
        try {
            record = roster.record(sha256);
        } catch (RecordException damaged) {
            throw Refusal.noReport(damaged.why());
        }
        if (record.verdict() == null) {
            throw Refusal.noReport("it holds no verdict");
        }
        try {
            return ReportPage.render(record);
        } catch (RecordException | IllegalArgumentException | ArithmeticException | DateTimeException e) {
            throw Refusal.noReport("figures in it are beyond what a report shows");
        }
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
                Count.capital(refusal.what()),
                (refusal.which().isEmpty() ? "" : refusal.which() + ": ") + refusal.why(),
                refusal.todo(),
                false);
    }

    private String loginPage(@Nullable Refusal before) {
        if (annex != null) {
            return trouble("Open the bench first", before == null ? "" : before.why(), annex.wayIn(), false);
        }
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
        return Templates.html(
                "roster/trouble",
                new TroublePage(
                        new Frame(
                                heading + " – " + (annex == null ? "drive roster" : "Tracksoak"),
                                "",
                                closed,
                                "",
                                "",
                                site()),
                        heading,
                        Shown.whole(Count.sentence(why)),
                        Shown.whole(Count.sentence(whatToDo)),
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
                here.equals("labels") ? "" : mark(),
                site());
    }

    private Frame.Site site() {
        return annex == null ? Frame.Site.ROSTER : Frame.Site.BENCH;
    }
}
