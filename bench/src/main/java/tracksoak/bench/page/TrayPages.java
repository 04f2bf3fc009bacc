package tracksoak.bench.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.bench.page.BenchSite.Desk;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.bench.tray.Tray;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Problem;
import tracksoak.report.page.bench.BenchPages;
import tracksoak.report.page.bench.TrayView;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.roster.identity.DriveTag;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.server.Form;
import tracksoak.report.roster.web.server.HttpAnswer;
import tracksoak.report.roster.web.server.Route;

/** Many drives in one go. Any thread. */
final class TrayPages {

    private static final String PAGE = "/bench/tray";
    private static final String TRAY = PAGE + "/([0-9a-f]{32})";
    private static final String USUAL_SESSION = "band-32";

    private final Desk desk;
    private final Tray tray;
    private final Models models;

    TrayPages(Desk desk) {
        this.desk = desk;
        this.tray = new Tray(desk.shelf(), desk.process(), desk.epoch(), desk.ids());
        this.models = new Models(desk.roster());
    }

    List<Route> routes() {
        return List.of(
                Route.get(PAGE, Route.Access.READERS, (exchange, path, body) -> BenchSite.form(page(List.of()))),
                BenchSite.post(desk, PAGE, (form, part) -> start(form)),
                BenchSite.post(desk, TRAY + "/go-on", (form, id) -> {
                    goOn(id);
                    return HttpAnswer.seeOther(PAGE);
                }),
                BenchSite.post(desk, TRAY + "/stop", (form, id) -> {
                    tray.runs(id).stream()
                            .filter(Sheet::alive)
                            .forEach(sheet -> desk.shelf().stop(sheet.order().id()));
                    return HttpAnswer.seeOther(PAGE);
                }));
    }

    synchronized void lookAfter() {
        tray.trays().stream().filter(id -> !tray.over(id)).forEach(tray::lookAfter);
    }

    private synchronized void goOn(String id) {
        tray.goOn(id);
    }

    private String page(List<Shown> problems) {
        Frame frame = desk.frame("tray", "Tray", true);
        String latest = tray.trays().stream().findFirst().orElse("");
        List<Sheet> runs = latest.isEmpty() ? List.of() : tray.runs(latest);
        boolean going = runs.stream().anyMatch(Sheet::alive);
        boolean cut = runs.stream().anyMatch(Sheet::cutShort);
        return BenchPages.tray(new TrayView(
                frame,
                desk.plugged().all().stream()
                        .filter(PluggedIn.One::usable)
                        .map(desk.lines()::of)
                        .toList(),
                StartPages.sessions(desk, USUAL_SESSION),
                StartPages.plans(PlanName.SOUND_CHECK),
                problems,
                desk.secret().text(),
                runs.stream().map(RunLines::line).toList(),
                Shown.whole(state(runs)),
                cut ? PAGE + "/" + latest + "/go-on" : "",
                going ? PAGE + "/" + latest + "/stop" : "",
                models.all()));
    }

    private static String state(List<Sheet> runs) {
        long going = runs.stream().filter(Sheet::alive).count();
        if (going > 0) {
            return Count.inDigits(going, "drive") + " of " + runs.size() + " still to be tested.";
        }
        long passed = runs.stream()
                .filter(sheet -> sheet.state().outcome().equals("PASS"))
                .count();
        return "All done: " + passed + " of " + Count.inDigits(runs.size(), "drive") + " passed.";
    }

    private synchronized HttpAnswer start(Form form) {
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
            RunOrders.mustDiffer(asked);
            PlanName plan = StartPages.plan(form.field("plan"));
            if (plan == null) {
                throw Problem.askedWrong("no plan was chosen", "choose one");
            }
            Session session = SessionCatalog.find(desk.rooms().sessionsFolder(), form.field("session"));
            String id = desk.ids().get();
            RunOrders orders = new RunOrders(desk.rooms(), desk.epoch());
            for (RunOrders.Asked one : asked) {
                tray.start(orders.of(
                        one,
                        id,
                        StartPages.words(desk, one.path().toString(), session, plan, one.tag()),
                        session.name(),
                        plan.word()));
            }
            return HttpAnswer.seeOther(PAGE);
        } catch (Problem wrong) {
            return BenchSite.form(page(List.of(Shown.whole(String.valueOf(wrong.getMessage())))))
                    .withStatus(422);
        }
    }
}
