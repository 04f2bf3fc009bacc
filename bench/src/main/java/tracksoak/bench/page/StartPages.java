package tracksoak.bench.page;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.job.Clear;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.DryRun;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.JobTerms;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Qualify;
import tracksoak.bench.job.RunFolder;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.page.BenchSite.Desk;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.simulated.catalog.SimulatedDrives;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunOrders;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.bench.BenchPages;
import tracksoak.report.page.bench.StartView;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.roster.Conflict;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.identity.DriveTag;
import tracksoak.report.roster.web.page.view.Option;
import tracksoak.report.roster.web.server.Form;
import tracksoak.report.roster.web.server.HttpAnswer;
import tracksoak.report.roster.web.server.Route;

/** Choosing what is tested, seeing what will be written, starting it. Any thread. */
final class StartPages {

    /** In front of the name of a simulated drive, where a form names a drive. */
    static final String SIMULATED = "simulated-";

    private static final double HANG_LIMIT_S = 60;
    private static final String USUAL_SESSION = "band-32";

    private final Desk desk;

    StartPages(Desk desk) {
        this.desk = desk;
    }

    List<Route> routes() {
        return List.of(
                Route.get(
                        "/bench/new",
                        Route.Access.READERS,
                        (exchange, path, body) -> choose(exchange::parameter, new ArrayList<>())),
                BenchSite.post(desk, "/bench/runs", (form, part) -> start(form)),
                BenchSite.post(desk, "/bench/clear", (form, part) -> clear(form)));
    }

    /** Hears what is to be known before a run. */
    private record Remarks(List<Shown> all) implements JobListener {
        @Override
        public void note(String sentence) {
            all.add(DriveLines.sentence(sentence));
        }

        /** Has a place of its own on the page. */
        @Override
        public void leftOvers(String found, String cleared) {}

        @Override
        public void trouble(Problem problem) {
            all.add(DriveLines.sentence(problem));
        }
    }

    /** What was chosen or sent, by name. */
    private HttpAnswer choose(UnaryOperator<String> chosen, List<Shown> problems) {
        String drive = chosen.apply("drive");
        String session = chosen.apply("session");
        PlanName plan = plan(chosen.apply("plan"));
        String tag = chosen.apply("tag");
        List<Shown> remarks = new ArrayList<>();
        Facts would = null;
        boolean asked = !drive.isEmpty() && !session.isEmpty() && plan != null;
        if (asked && plan != null) {
            try {
                if (!tag.isEmpty()) {
                    tag = DriveTag.of(tag);
                }
                Session what = SessionCatalog.find(desk.rooms().sessionsFolder(), session);
                DryRun all = would(drive, order(what, plan), new Remarks(remarks));
                if (!tag.isEmpty() && !drive.startsWith(SIMULATED)) {
                    against(desk, listed(drive).drive().facts(), tag)
                            .forEach(sentence -> remarks.add(DriveLines.sentence(sentence)));
                }
                would = facts(all);
            } catch (Problem wrong) {
                problems.add(DriveLines.sentence(wrong));
            }
        }
        return BenchSite.form(BenchPages.start(new StartView(
                desk.frame("bench", "Test a drive", false),
                plugged(drive),
                simulated(drive),
                sessions(desk, session.isEmpty() ? USUAL_SESSION : session),
                plans(plan == null ? PlanName.LINE_CHECK : plan),
                Shown.of(tag.isEmpty() && !asked ? knownTag(drive) : tag),
                would,
                asked ? left(drive) : List.of(),
                problems,
                remarks,
                desk.secret().text(),
                drive.startsWith(SIMULATED))));
    }

    private String knownTag(String drive) {
        return desk.plugged()
                .usable(drive)
                .map(one -> desk.lines().of(one).tag().full())
                .orElse("");
    }

    private List<Option> plugged(String chosen) {
        return desk.plugged().all().stream()
                .filter(PluggedIn.One::usable)
                .map(one -> new Option(
                        one.key(),
                        Shown.of(one.name() + ", " + one.drive().facts().mount()),
                        one.key().equals(chosen)))
                .toList();
    }

    private static List<Option> simulated(String chosen) {
        return SimulatedDrives.all().stream()
                .map(drive -> new Option(
                        SIMULATED + drive.name(),
                        Shown.of(drive.name() + ": " + drive.about()),
                        chosen.equals(SIMULATED + drive.name())))
                .toList();
    }

    static List<Option> sessions(Desk desk, String chosen) {
        return SessionCatalog.of(desk.rooms().sessionsFolder()).all().stream()
                .map(session -> new Option(
                        session.name(),
                        Shown.of(SessionPages.inShort(session)),
                        session.name().equals(chosen)))
                .toList();
    }

    static List<Option> plans(PlanName chosen) {
        return PlanName.ASKED.stream()
                .map(name -> new Option(name.word(), Shown.of(name.word() + ": " + meaning(name)), name == chosen))
                .toList();
    }

    private static String meaning(PlanName name) {
        return switch (name) {
            case LINE_CHECK -> "a few minutes, to see whether anything is obviously wrong";
            case SOUND_CHECK -> "an hour or more; clears the drive for the session";
            case FULL_SHOW -> "as long as the show, and as long again or longer; proves all of the drive's room, too";
            case CLIMB_FILL, CLIMB_TAKE -> "part of a climb";
        };
    }

    static @Nullable PlanName plan(String word) {
        return PlanName.of(word).filter(PlanName.ASKED::contains).orElse(null);
    }

    /** What the roster would have against a drive's tag, one sentence each. */
    static List<String> against(Desk desk, DriveFacts drive, String tag) {
        return desk.roster().ifTagged(DriveIdentity.of(drive), tag).stream()
                .map(Conflict::cost)
                .toList();
    }

    static Order order(Session what, PlanName plan) {
        Plan todo = switch (plan) {
            case SOUND_CHECK -> Plan.soundCheck(what);
            case FULL_SHOW -> Plan.fullShow(what);
            default -> Plan.lineCheck();
        };
        return Order.of(what, todo, HANG_LIMIT_S, null, null);
    }

    private DryRun would(String drive, Order order, Remarks remarks) {
        JobTerms terms = new JobTerms(false, RunFolder.usual(desk.rooms().recordsFolder(), desk.epoch(), order.id()));
        Optional<DriveModel> model = model(drive);
        if (model.isPresent()) {
            return Qualify.planOnModel(new SimulatedTarget(model.get(), desk.epoch(), HANG_LIMIT_S), order, terms);
        }
        return new Qualify(desk.rooms(), remarks).planOnDrive(listed(drive).path(), order, terms);
    }

    private static Optional<DriveModel> model(String drive) {
        return drive.startsWith(SIMULATED)
                ? SimulatedDrives.named(drive.substring(SIMULATED.length()))
                : Optional.empty();
    }

    private PluggedIn.One listed(String drive) {
        return desk.plugged()
                .usable(drive)
                .orElseThrow(() -> Problem.askedWrong(
                        "this drive is not plugged in, or cannot be tested", "choose one of those listed"));
    }

    private static Facts facts(DryRun would) {
        return Facts.about("Nothing has been written yet")
                .row("Drive", Drives.name(would.drive()))
                .row("Session", SessionPages.inShort(would.session()))
                .row("Plan", would.plan().name().word())
                .row("Folder", would.place())
                .row("Time", would.time())
                .row(
                        "Wear",
                        "about " + Units.bytes(would.budget().usualBytes()) + " written, at most "
                                + Units.bytes(would.budget().mostBytes()))
                .row("Stays free", Units.bytes(would.reserveBytes()))
                .row("Record and report", would.records())
                .build();
    }

    /** What tests that were cut short left on a drive, one line each. */
    private List<Shown> left(String drive) {
        List<Shown> left = new ArrayList<>();
        desk.plugged().usable(drive).ifPresent(one -> {
            try {
                new Clear(desk.rooms(), one.path()).leftOvers(false, folder -> left.add(Shown.whole(folder.inShort())));
            } catch (Problem silent) {
                // the dry run says so
            }
        });
        return left;
    }

    private HttpAnswer clear(Form form) {
        PluggedIn.One one = listed(form.field("drive"));
        List<Shown> problems = new ArrayList<>();
        try {
            new Clear(desk.rooms(), one.path())
                    .leftOvers(
                            true,
                            folder -> Optional.ofNullable(folder.kept())
                                    .ifPresent(kept -> problems.add(DriveLines.sentence(kept))));
        } catch (Problem refused) {
            problems.add(DriveLines.sentence(refused));
        }
        if (!problems.isEmpty()) {
            return choose(form::field, problems);
        }
        return HttpAnswer.seeOther("/bench/new?drive=" + one.key()
                + Stream.of("session", "plan", "tag")
                        .map(name -> "&" + name + "=" + URLEncoder.encode(form.field(name), StandardCharsets.UTF_8))
                        .collect(Collectors.joining()));
    }

    private HttpAnswer start(Form form) {
        String drive = form.field("drive");
        PlanName plan = plan(form.field("plan"));
        if (plan == null) {
            throw Problem.askedWrong("no plan was chosen", "choose one on the page");
        }
        Session session = SessionCatalog.find(desk.rooms().sessionsFolder(), form.field("session"));
        String tag = form.field("tag").isEmpty() ? "" : DriveTag.of(form.field("tag"));
        RunOrders orders = new RunOrders(desk.rooms(), desk.epoch());
        RunOrder order;
        if (model(drive).isPresent()) {
            List<String> words = words(desk, "--simulated=" + drive.substring(SIMULATED.length()), session, plan, tag);
            words.add(form.field("enter").equals("yes") ? "--enter-simulated" : "--no-roster");
            order = orders.simulated(drive.substring(SIMULATED.length()), "", words, session.name(), plan.word(), tag);
        } else {
            PluggedIn.One one = listed(drive);
            order = orders.of(
                    new RunOrders.Asked(one.drive(), one.path(), tag),
                    "",
                    words(desk, one.path().toString(), session, plan, tag),
                    session.name(),
                    plan.word(),
                    List.of());
        }
        return HttpAnswer.seeOther(RunLines.href(started(order)));
    }

    /** A form sent twice, as a second click does, begins one test. */
    private synchronized RunOrder started(RunOrder order) {
        Optional<RunOrder> same = desk.shelf().all().stream()
                .filter(Sheet::alive)
                .map(Sheet::order)
                .filter(going -> going.words().equals(order.words()))
                .findFirst();
        if (same.isEmpty()) {
            desk.process().start(order, desk.shelf().put(order));
        }
        return same.orElse(order);
    }

    /** The command of one run. */
    static List<String> words(Desk desk, String drive, Session session, PlanName plan, String tag) {
        List<String> words =
                new ArrayList<>(List.of("qualify", drive, "--session=" + session.name(), "--plan=" + plan.word()));
        if (!tag.isEmpty()) {
            words.add("--tag=" + tag);
        }
        words.addAll(desk.rosterWords());
        return words;
    }
}
