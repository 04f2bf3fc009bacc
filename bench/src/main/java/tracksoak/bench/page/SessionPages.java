package tracksoak.bench.page;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import tracksoak.bench.page.BenchSite.Desk;
import tracksoak.profiles.Demand;
import tracksoak.profiles.ProfileError;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.SessionReader;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.TradeName;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.bench.BenchPages;
import tracksoak.report.page.bench.SessionView;
import tracksoak.report.page.bench.SessionsView;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.Carried;
import tracksoak.report.roster.web.server.Form;
import tracksoak.report.roster.web.server.HttpAnswer;
import tracksoak.report.roster.web.server.Refusal;
import tracksoak.report.roster.web.server.Route;

/** Sessions: their demand, and new ones made of them. Any thread. */
final class SessionPages {

    private static final String PAGE = "/bench/sessions";
    private static final String SHIPPED = "shipped";
    private static final String LABEL = "form";

    private final Desk desk;

    SessionPages(Desk desk) {
        this.desk = desk;
    }

    List<Route> routes() {
        return List.of(
                Route.get(PAGE, Route.Access.READERS, (exchange, path, body) -> BenchSite.form(all())),
                Route.get(
                        PAGE + "/([a-z0-9-]{1,48})",
                        Route.Access.READERS,
                        (exchange, path, body) -> BenchSite.form(
                                one(path.group(1), exchange.parameter("saved").equals("yes")))),
                BenchSite.post(desk, PAGE, (form, part) -> save(form)));
    }

    private SessionCatalog catalog() {
        return SessionCatalog.of(desk.rooms().sessionsFolder());
    }

    private String all() {
        SessionCatalog catalog = catalog();
        return BenchPages.sessions(new SessionsView(
                desk.frame("sessions", "Sessions", false),
                catalog.all().stream()
                        .map(session -> new SessionsView.Line(
                                PAGE + "/" + session.name(),
                                Shown.of(session.name()),
                                Shown.of(session.title()),
                                TrackGroup.words(session.groups()),
                                Units.rate((double) Demand.of(session).bytesPerSecond()),
                                own(catalog, session.name())))
                        .toList(),
                catalog.problems().stream()
                        .map(ProfileError::sentence)
                        .map(Shown::whole)
                        .toList()));
    }

    private static boolean own(SessionCatalog catalog, String name) {
        return catalog.origin(name).filter(origin -> !origin.equals(SHIPPED)).isPresent();
    }

    private String one(String name, boolean saved) {
        SessionCatalog catalog = catalog();
        if (catalog.origin(name).isEmpty()) {
            throw Refusal.notFound("this session");
        }
        Session session = catalog.find(name);
        return BenchPages.session(new SessionView(
                desk.frame("sessions", "Session", false),
                Shown.of(session.name() + ": " + session.title()),
                demand(session),
                "/bench/new?session=" + session.name(),
                List.of(),
                SessionForm.fields(session),
                SessionForm.groups(session),
                desk.secret().text(),
                session.name(),
                saved ? "Saved among your sessions." : ""));
    }

    private static Facts demand(Session session) {
        Demand demand = Demand.of(session);
        return Facts.about("What it asks of a drive")
                .row("Tracks", Carried.of(session))
                .row("In all", Units.rate((double) demand.bytesPerSecond()))
                .row("For " + Units.seconds((double) session.lengthS()), Units.bytes(demand.dataBytes()))
                .row("Files open at once", Integer.toString(demand.openFiles()))
                .row("Recorder's buffer", RecorderBuffer.words(session))
                .row("File systems", TradeName.all(session.fileSystems(), ", "))
                .build();
    }

    /** {@code band-32: 32 tracks, 48 kHz, 24-bit, 4.61 MB/s}. */
    static String inShort(Session session) {
        return session.name() + ": " + Carried.of(session) + ", "
                + Units.rate((double) Demand.of(session).bytesPerSecond());
    }

    private HttpAnswer save(Form form) {
        String toml = SessionForm.toml(form);
        Session session;
        try {
            session = SessionReader.read(toml, LABEL);
            keep(session.name(), form.field("from"), toml);
        } catch (ProfileException wrong) {
            return again(
                    form,
                    wrong.errors().stream()
                            .map(SessionForm::sentence)
                            .map(Shown::whole)
                            .toList());
        } catch (Problem wrong) {
            return again(form, List.of(DriveLines.sentence(wrong)));
        }
        return HttpAnswer.seeOther(PAGE + "/" + session.name() + "?saved=yes");
    }

    private HttpAnswer again(Form form, List<Shown> errors) {
        return BenchSite.form(BenchPages.session(new SessionView(
                        desk.frame("sessions", "Session", false),
                        Shown.of("A session of your own"),
                        null,
                        "",
                        errors,
                        SessionForm.fields(form),
                        SessionForm.groups(form),
                        desk.secret().text(),
                        form.field("from"),
                        "")))
                .withStatus(422);
    }

    /** Keeps it in the user's folder: over the one of theirs that the form was made of, never in place of another. */
    private void keep(String name, String from, String toml) {
        Path folder = desk.rooms().sessionsFolder();
        Path file = folder.resolve(name + ".toml");
        Optional<String> origin = catalog().origin(name);
        if (origin.filter(SHIPPED::equals).isPresent()) {
            throw Problem.askedWrong(
                    "\"" + name + "\" is the name of a shipped session, which stays as it is",
                    "give it a name of its own");
        }
        if (origin.isPresent() ? !Path.of(origin.get()).equals(file) : Files.exists(file)) {
            throw Problem.askedWrong(
                    "another of your session files has that name, or says it has: "
                            + Inert.quoted(origin.orElse(file.toString())),
                    "give it a name of its own, or mend that file");
        }
        if (origin.isPresent() && !name.equals(from)) {
            throw Problem.askedWrong(
                    "you have a session " + Inert.quoted(name) + " already",
                    "give this one a name of its own, or open that one to change it");
        }
        try {
            AtomicFile.write(file, toml.getBytes(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw Problem.cannot(
                    "the session cannot be kept in " + Inert.quoted(folder) + " (" + Problem.reason(e) + ")",
                    "see that there is room and that this user may write there");
        }
    }
}
