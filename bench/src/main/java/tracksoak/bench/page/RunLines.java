package tracksoak.bench.page;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.AboutTime;
import tracksoak.bench.phase.timeleft.Progress;
import tracksoak.bench.tray.LiveState;
import tracksoak.bench.tray.RunOrder;
import tracksoak.bench.tray.RunShelf.Sheet;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.bench.BacklogChart;
import tracksoak.report.page.bench.Link;
import tracksoak.report.page.bench.RunLine;
import tracksoak.report.page.bench.RunView;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.roster.web.page.view.Frame;

/** Runs as the bench's pages show them. */
final class RunLines {

    private RunLines() {}

    static RunLine line(Sheet sheet) {
        RunOrder order = sheet.order();
        return new RunLine(
                href(order),
                Shown.of(name(order)),
                Shown.of(order.session() + ", " + order.plan()),
                state(sheet),
                word(sheet),
                DriveLines.sentence(about(sheet)),
                label(sheet),
                report(sheet));
    }

    /** What the crew calls the drive, else what it calls itself. */
    static String name(RunOrder order) {
        return order.tag().isEmpty() ? order.drive() : order.tag();
    }

    static String href(RunOrder order) {
        return "/bench/runs/" + order.id();
    }

    /** Whether its record is there. */
    static boolean reported(RunOrder order) {
        return Files.isRegularFile(Path.of(order.folder()).resolve("record.json"));
    }

    private static String report(Sheet sheet) {
        return !sheet.alive() && reported(sheet.order()) ? href(sheet.order()) + "/report" : "";
    }

    private static String label(Sheet sheet) {
        String drive = sheet.state().rosterDrive();
        return drive.isEmpty() ? "" : "/labels?drive=" + drive;
    }

    private static String state(Sheet sheet) {
        if (sheet.alive()) {
            return "going";
        }
        return switch (sheet.state().outcome()) {
            case "PASS" -> "pass";
            case "FAIL" -> "fail";
            default -> "none";
        };
    }

    private static String word(Sheet sheet) {
        if (sheet.alive()) {
            return sheet.state().stage() == LiveState.Stage.WAITS ? "waits" : "testing";
        }
        if (sheet.cutShort()) {
            return "cut short";
        }
        String outcome = sheet.state().outcome();
        return outcome.isEmpty() ? "no run" : outcome;
    }

    private static String about(Sheet sheet) {
        LiveState state = sheet.state();
        if (sheet.cutShort()) {
            return "The test was cut short: its process was killed, or the computer went off. "
                    + (reported(sheet.order())
                            ? "Its report says what it had measured by then."
                            : "Nothing had been measured yet.");
        }
        if (!sheet.alive()) {
            return state.sentence();
        }
        Progress progress = state.progress();
        if (state.stage() == LiveState.Stage.WAITS) {
            return "Waits for " + state.waitsFor() + ".";
        }
        return progress == null ? "Begins." : phase(progress) + ", " + left(sheet.order(), progress);
    }

    private static String phase(Progress progress) {
        return "Step " + progress.step() + " of " + progress.steps() + ": " + name(progress.phase())
                + (progress.elapsedS() < 0 ? "; the drive rests before it" : "");
    }

    private static String name(PhaseKind phase) {
        return KebabCase.of(phase)
                + switch (phase) {
                    case TAKE -> " (recording at the session's pace)";
                    case FILL -> " (writing as fast as the drive can)";
                    case COPY -> " (copying the show on)";
                    case CLOSE -> " (making it safe to unplug)";
                    case READ_BACK -> " (reading everything again)";
                    case PLAYBACK -> " (playing what was recorded)";
                    case PROBES -> " (single blocks all over the drive)";
                    case KEEPSAKE -> " (reading what an earlier test left)";
                };
    }

    private static String left(RunOrder order, Progress progress) {
        if (order.simulated()) {
            return "simulated: hours pass in seconds";
        }
        if (progress.leftS() >= 0) {
            return AboutTime.of(progress.leftS()) + " left";
        }
        return progress.phaseLeftS() >= 0
                ? AboutTime.of(progress.phaseLeftS()) + " of this step left"
                : Units.seconds(Math.rint(progress.elapsedS())) + " so far";
    }

    /** Which drive, and for what. */
    static String title(RunOrder order) {
        return (order.tag().isEmpty() ? "" : order.tag() + ", ") + order.drive() + " for " + order.session();
    }

    static RunView view(Sheet sheet, Frame frame, String secret, String driveKey) {
        RunOrder order = sheet.order();
        LiveState state = sheet.state();
        Progress progress = state.progress();
        boolean going = sheet.alive();
        return new RunView(
                frame,
                Shown.of(title(order)),
                state(sheet),
                word(sheet),
                DriveLines.sentence(about(sheet)),
                going ? Shown.of("") : DriveLines.sentence(state.todo()),
                going && progress != null ? figures(order, progress, state) : null,
                going
                                && progress != null
                                && paced(progress)
                                && !state.backlogMs().isEmpty()
                        ? BacklogChart.of(state.backlogMs(), state.pieceMs(), progress.bufferMs())
                        : null,
                state.notes().stream().map(DriveLines::sentence).toList(),
                Facts.about("What was asked for")
                        .row("Drive", order.drive())
                        .row("Session", order.session())
                        .row("Plan", order.plan())
                        .rowIf(!order.simulated(), "Mounted at", order.place())
                        .row("Record and report", order.folder())
                        .build(),
                going ? href(order) + "/stop" : "",
                secret,
                links(sheet, driveKey));
    }

    /** Whether it is at the session's pace now; before "record" the drive is left alone. */
    private static boolean paced(Progress progress) {
        return progress.elapsedS() >= 0
                && (progress.phase() == PhaseKind.TAKE || progress.phase() == PhaseKind.PLAYBACK);
    }

    private static Facts figures(RunOrder order, Progress progress, LiveState state) {
        boolean reads = progress.phase() == PhaseKind.READ_BACK || progress.phase() == PhaseKind.KEEPSAKE;
        Facts.Builder facts =
                Facts.about("How it gets on").row("Now", phase(progress)).row("Time left", left(order, progress));
        if (paced(progress)) {
            facts.row("Tracks carried", progress.tracksCarried() + " of " + progress.tracks())
                    .rowIf(progress.lostMs() > 0, "Audio lost", Units.ms(progress.lostMs()))
                    .row(
                            "Backlog now",
                            Units.ms(progress.backlogMs()) + " of a buffer of " + Units.ms(progress.bufferMs()))
                    .row("Largest backlog", Units.ms(progress.worstBacklogMs()));
        }
        if (progress.elapsedS() >= 0) {
            facts.row(reads ? "Read" : "Written", Units.bytes(progress.bytes()))
                    .row("Rate", Units.rate(progress.bytesPerSecond()))
                    .rowIf(!reads, "Longest write", Units.ms(progress.worstServiceMs()))
                    .row("The computer's own longest delay", Units.ms(progress.hostDelayMs()));
        }
        return facts.row("Sleep", sleep(state)).build();
    }

    /** Whether the computer may go to sleep while a run works. */
    static String sleep(LiveState state) {
        return state.awake().isEmpty()
                ? "Nothing keeps this computer awake: switch its sleep off."
                : "This computer is kept awake (" + state.awake() + ").";
    }

    private static List<Link> links(Sheet sheet, @Nullable String driveKey) {
        List<Link> links = new ArrayList<>();
        if (sheet.alive()) {
            return links;
        }
        add(links, report(sheet), "Read the report");
        add(links, label(sheet), "Print its label");
        String drive = sheet.state().rosterDrive();
        add(links, drive.isEmpty() ? "" : "/drives/" + drive, "The drive in the roster");
        String key = driveKey == null ? "" : driveKey;
        String asked = "/bench/new?drive=" + key;
        add(
                links,
                key.isEmpty()
                        ? ""
                        : asked + "&session=" + sheet.order().session() + "&plan="
                                + sheet.order().plan(),
                "Test it again");
        add(links, key.isEmpty() ? "" : asked, "Test it for another session");
        add(links, "/bench", "Back to the bench");
        return links;
    }

    private static void add(List<Link> links, String href, String text) {
        if (!href.isEmpty()) {
            links.add(new Link(href, text));
        }
    }
}
