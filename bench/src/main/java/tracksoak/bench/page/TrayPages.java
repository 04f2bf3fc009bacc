package tracksoak.bench.page;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.page.BenchSite.Desk;
import tracksoak.bench.tray.LiveState;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.bench.tray.SystemNotice;
import tracksoak.bench.tray.Tray;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Times;
import tracksoak.report.page.bench.BenchPages;
import tracksoak.report.page.bench.DriveLine;
import tracksoak.report.page.bench.Link;
import tracksoak.report.page.bench.TestedTray;
import tracksoak.report.page.bench.TestedTrayView;
import tracksoak.report.page.bench.TrayView;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.roster.identity.DriveTag;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.server.Form;
import tracksoak.report.roster.web.server.HttpAnswer;
import tracksoak.report.roster.web.server.Refusal;
import tracksoak.report.roster.web.server.Route;

/** Many drives in one go. Any thread. */
final class TrayPages {

    private static final String PAGE = "/bench/tray";
    private static final String TRAY = PAGE + "/([0-9a-f]{32})";
    private static final String USUAL_SESSION = "band-32";
    private static final int MOST_EARLIER = 10;
    private static final int LABELS = 20;

    private final Desk desk;
    private final Tray tray;
    private final Models models;
    private final SystemNotice notice = SystemNotice.here();
    private final Set<String> going = new HashSet<>();

    TrayPages(Desk desk) {
        this.desk = desk;
        this.tray = new Tray(desk.shelf(), desk.process(), desk.epoch(), desk.ids());
        this.models = new Models(desk.roster());
    }

    List<Route> routes() {
        return List.of(
                Route.get(PAGE, Route.Access.READERS, (exchange, path, body) -> BenchSite.form(page(List.of(), null))),
                Route.get(TRAY, Route.Access.READERS, (exchange, path, body) -> BenchSite.form(whole(path.group(1)))),
                BenchSite.post(desk, PAGE, (form, part) -> start(form)),
                BenchSite.post(desk, TRAY + "/go-on", (form, id) -> {
                    goOn(id);
                    return HttpAnswer.seeOther(PAGE + "/" + id);
                }),
                BenchSite.post(desk, TRAY + "/stop", (form, id) -> {
                    tray.runs(id).stream()
                            .filter(Sheet::alive)
                            .forEach(sheet -> desk.shelf().stop(sheet.order().id()));
                    return HttpAnswer.seeOther(PAGE + "/" + id);
                }));
    }

    synchronized void lookAfter() {
        Set<String> before = Set.copyOf(going);
        going.clear();
        tray.trays().stream().filter(id -> !tray.over(id)).forEach(id -> {
            tray.lookAfter(id);
            going.add(id);
        });
        before.stream().filter(id -> !going.contains(id)).forEach(id -> tray.tellEnd(id, notice));
    }

    private synchronized void goOn(String id) {
        tray.goOn(id);
    }

    /** @param sent a form that has something wrong, null for none */
    private String page(List<Shown> problems, @Nullable Form sent) {
        Frame frame = desk.frame("tray", "Tray", true);
        List<String> known = tray.trays();
        PlanName plan = sent == null ? null : StartPages.plan(sent.field("plan"));
        return BenchPages.tray(new TrayView(
                frame,
                desk.plugged().all().stream()
                        .filter(PluggedIn.One::usable)
                        .map(one -> line(one, sent))
                        .toList(),
                StartPages.sessions(desk, sent == null ? USUAL_SESSION : sent.field("session")),
                StartPages.plans(plan == null ? PlanName.SOUND_CHECK : plan),
                problems,
                desk.secret().text(),
                known.isEmpty() ? null : tested(known.get(0), tray.runs(known.get(0))),
                known.stream()
                        .skip(1)
                        .limit(MOST_EARLIER)
                        .map(id -> new Link(PAGE + "/" + id, "Tray of " + begun(id)))
                        .toList(),
                models.all()));
    }

    private DriveLine line(PluggedIn.One one, @Nullable Form sent) {
        DriveLine line = desk.lines().of(one);
        return sent == null
                ? line
                : line.filledIn(
                        sent.field("tag-" + one.key()),
                        sent.field("drive-" + one.key()).equals("yes"));
    }

    private String whole(String id) {
        Frame frame = desk.frame("", "Tray", true);
        List<Sheet> runs = tray.runs(id);
        if (runs.isEmpty()) {
            throw Refusal.notFound("this tray");
        }
        return BenchPages.tested(new TestedTrayView(
                frame, tested(id, runs), notice.known(), desk.secret().text()));
    }

    private TestedTray tested(String id, List<Sheet> runs) {
        String href = PAGE + "/" + id;
        boolean alive = runs.stream().anyMatch(Sheet::alive);
        return new TestedTray(
                href,
                begun(id),
                runs.stream().map(RunLines::line).toList(),
                Shown.whole(tray.sentence(id)),
                alive,
                runs.stream()
                        .filter(sheet -> sheet.alive() && sheet.state().stage() == LiveState.Stage.WORKS)
                        .findFirst()
                        .map(sheet -> RunLines.sleep(sheet.state()))
                        .orElse(""),
                remarks(runs),
                labels(runs),
                tray.cutShort(id) ? href + "/go-on" : "",
                alive ? href + "/stop" : "");
    }

    private String begun(String id) {
        return Times.minute(Instant.ofEpochMilli(tray.begunMs(id)));
    }

    /** What is to be known of the drives that are still at it; what is true of several is said once. */
    private static List<Shown> remarks(List<Sheet> runs) {
        Map<String, List<String>> drives = new LinkedHashMap<>();
        for (Sheet sheet : runs) {
            if (sheet.alive()) {
                sheet.order()
                        .remarks()
                        .forEach(remark -> drives.computeIfAbsent(remark, same -> new ArrayList<>())
                                .add(RunLines.name(sheet.order())));
            }
        }
        return drives.entrySet().stream()
                .map(said -> DriveLines.sentence(Count.list(said.getValue()) + ": " + Count.sentence(said.getKey())))
                .toList();
    }

    /** As many on a page as fit an address. */
    private static List<Link> labels(List<Sheet> runs) {
        List<String> drives = runs.stream()
                .map(sheet -> sheet.state().rosterDrive())
                .filter(drive -> !drive.isEmpty())
                .distinct()
                .toList();
        List<Link> labels = new ArrayList<>();
        for (int i = 0; i < drives.size(); i += LABELS) {
            List<String> some = drives.subList(i, Math.min(drives.size(), i + LABELS));
            labels.add(new Link(
                    "/labels?drive=" + String.join(",", some), "Print " + Count.inDigits(some.size(), "label")));
        }
        return labels;
    }

    private synchronized void start(List<RunOrders.Ready> ready) {
        ready.forEach(one -> tray.start(one.order()));
    }

    private HttpAnswer start(Form form) {
        try {
            List<RunOrders.Asked> asked = new ArrayList<>();
            for (PluggedIn.One one : desk.plugged().all()) {
                if (one.usable() && form.field("drive-" + one.key()).equals("yes")) {
                    String tag = form.field("tag-" + one.key());
                    asked.add(new RunOrders.Asked(one.drive(), one.path(), tag.isEmpty() ? "" : DriveTag.of(tag)));
                }
            }
            if (asked.isEmpty()) {
                throw Problem.askedWrong("no drive was ticked", "tick at least one");
            }
            PlanName plan = StartPages.plan(form.field("plan"));
            if (plan == null) {
                throw Problem.askedWrong("no plan was chosen", "choose one");
            }
            Session session = SessionCatalog.find(desk.rooms().sessionsFolder(), form.field("session"));
            String id = desk.ids().get();
            // a drive that hangs holds up nobody who looks after the other trays
            start(new RunOrders(desk.rooms(), desk.epoch())
                    .ready(
                            asked,
                            id,
                            one -> StartPages.words(desk, one.path().toString(), session, plan, one.tag()),
                            StartPages.order(session, plan),
                            false,
                            (drive, tag) -> StartPages.against(desk, drive, tag)));
            return HttpAnswer.seeOther(PAGE + "/" + id);
        } catch (Problem wrong) {
            return BenchSite.form(page(List.of(DriveLines.sentence(wrong)), form))
                    .withStatus(422);
        }
    }
}
