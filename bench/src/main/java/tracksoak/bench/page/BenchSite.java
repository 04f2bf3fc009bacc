package tracksoak.bench.page;

import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.tray.RunProcess;
import tracksoak.bench.tray.RunShelf;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.profiles.base.EpochClock;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Times;
import tracksoak.report.page.ReportPage;
import tracksoak.report.page.bench.BenchPages;
import tracksoak.report.page.bench.BenchView;
import tracksoak.report.page.bench.HelpView;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.json.RecordFile;
import tracksoak.report.roster.Roster;
import tracksoak.report.roster.web.page.RosterSite;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.server.Form;
import tracksoak.report.roster.web.server.HttpAnswer;
import tracksoak.report.roster.web.server.Refusal;
import tracksoak.report.roster.web.server.Route;

/** The bench's addresses, served beside the roster's to the one person who started it. Any thread. */
public final class BenchSite implements RosterSite.Annex {

    private static final String RUN = "/bench/runs/([0-9a-f]{32})";
    private static final int MOST_RUNS = 50;
    private static final int MOST_BYTES = 64 << 10;

    private final Desk desk;
    private final Supplier<List<HelpView.Command>> commands;
    private final StartPages starts;
    private final TrayPages trays;
    private final SessionPages sessions;

    /**
     * What the bench's pages share.
     *
     * @param rosterWords options that name the roster to runs
     * @param ids new ids of 32 hex digits
     */
    record Desk(
            Rooms rooms,
            Roster roster,
            List<String> rosterWords,
            PluggedIn plugged,
            DriveLines lines,
            RunShelf shelf,
            RunProcess process,
            Secret secret,
            EpochClock epoch,
            InstantSource clock,
            Supplier<String> ids,
            Supplier<String> mark) {

        Frame frame(String here, String title, boolean live) {
            return new Frame(
                    title + " – Tracksoak",
                    here,
                    true,
                    "As of " + Times.minute(clock.instant()) + ".",
                    live ? mark.get() : "",
                    Frame.Site.BENCH);
        }
    }

    /**
     * @param process starts runs
     * @param rosterWords options that name the roster to runs, empty for the usual one
     * @param commands what is typed in a terminal
     */
    public BenchSite(
            Rooms rooms,
            Roster roster,
            RunShelf shelf,
            RunProcess process,
            List<String> rosterWords,
            SecureRandom random,
            EpochClock epoch,
            NanoClock nano,
            InstantSource clock,
            Supplier<String> ids,
            Supplier<List<HelpView.Command>> commands) {
        this.commands = commands;
        PluggedIn plugged = new PluggedIn(rooms, nano);
        this.desk = new Desk(
                rooms,
                roster,
                List.copyOf(rosterWords),
                plugged,
                new DriveLines(roster),
                shelf,
                process,
                new Secret(random),
                epoch,
                clock,
                ids,
                () -> roster.version() + "/" + mark(shelf, plugged));
        this.starts = new StartPages(desk);
        this.trays = new TrayPages(desk);
        this.sessions = new SessionPages(desk);
    }

    @Override
    public String mark() {
        return mark(desk.shelf(), desk.plugged());
    }

    private static String mark(RunShelf shelf, PluggedIn plugged) {
        return shelf.mark() + plugged.mark();
    }

    @Override
    public String wayIn() {
        return "Open it from the menu of this computer, or type: tracksoak bench. Nobody else can use it.";
    }

    /** What is to be done now and then, whether or not a page is open. */
    public void lookAfterTrays() {
        trays.lookAfter();
    }

    @Override
    public List<Route> routes() {
        List<Route> routes = new ArrayList<>(List.of(
                page("/bench", () -> BenchPages.bench(bench())),
                page(
                        "/bench/help",
                        () -> BenchPages.help(new HelpView(desk.frame("help", "Help", false), commands.get()))),
                Route.get(RUN, Route.Access.READERS, (exchange, path, body) -> form(run(path.group(1)))),
                Route.get(RUN + "/report", Route.Access.READERS, (exchange, path, body) -> report(path.group(1))),
                post(RUN + "/stop", (form, id) -> {
                    desk.shelf().stop(sheet(id).order().id());
                    return HttpAnswer.seeOther("/bench/runs/" + id);
                })));
        routes.addAll(starts.routes());
        routes.addAll(trays.routes());
        routes.addAll(sessions.routes());
        return routes;
    }

    private static Route page(String path, Supplier<String> page) {
        return Route.get(path, Route.Access.READERS, (exchange, matched, body) -> form(page.get()));
    }

    /** What a form asks for. */
    interface Act {
        HttpAnswer of(Form form, String part);
    }

    private Route post(String path, Act act) {
        return post(desk, path, act);
    }

    /** A form of the bench's own pages, sent with their secret. */
    static Route post(Desk desk, String path, Act act) {
        return Route.post(path, Route.Access.READERS_ON_OWN_PAGES, MOST_BYTES, (exchange, matched, body) -> {
            Form form = Form.of(exchange, body);
            desk.secret().check(form);
            return act.of(form, matched.groupCount() > 0 ? matched.group(1) : "");
        });
    }

    /** A page whose forms say where they come from; no other site ever learns of it. */
    static HttpAnswer form(String html) {
        return HttpAnswer.html(html).with("Referrer-Policy", "same-origin");
    }

    private BenchView bench() {
        // how far it is before it is looked at: what changes meanwhile is told once more
        Frame frame = desk.frame("bench", "Bench", true);
        return new BenchView(
                frame,
                desk.plugged().all().stream().map(desk.lines()::of).toList(),
                desk.shelf().all().stream().limit(MOST_RUNS).map(RunLines::line).toList());
    }

    private Sheet sheet(String id) {
        return desk.shelf().byId(id).orElseThrow(() -> Refusal.notFound("this run"));
    }

    private String run(String id) {
        Frame frame =
                desk.frame("", "Test of " + Inert.text(RunLines.title(sheet(id).order())), true);
        Sheet sheet = sheet(id);
        return BenchPages.run(RunLines.view(sheet, frame, desk.secret().text(), driveKey(sheet)));
    }

    /** What names the same drive again; empty where it is not plugged in. */
    private String driveKey(Sheet sheet) {
        if (sheet.order().simulated()) {
            return StartPages.SIMULATED + sheet.order().place();
        }
        return desk.plugged().all().stream()
                .filter(one ->
                        one.usable() && one.path().equals(Path.of(sheet.order().place())))
                .map(PluggedIn.One::key)
                .findFirst()
                .orElse("");
    }

    /** A report brings its own script and style; its policy lets them run by their hashes and nothing else. */
    private HttpAnswer report(String id) {
        RunRecord record = record(Path.of(sheet(id).order().folder()).resolve("record.json"));
        if (record.verdict() == null) {
            throw Refusal.noReport("it holds no verdict yet");
        }
        return HttpAnswer.html(ReportPage.render(record))
                .with("Content-Security-Policy", ReportPage.policy() + "; frame-ancestors 'none'");
    }

    private static RunRecord record(Path file) {
        try {
            return RecordFile.load(file);
        } catch (RecordException damaged) {
            throw Problem.cannot("there is no record of this run that can be read", "test the drive again");
        }
    }
}
