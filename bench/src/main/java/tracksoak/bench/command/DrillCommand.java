package tracksoak.bench.command;

import java.nio.file.Path;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.drive.FoundDrive;
import tracksoak.bench.phase.DrillRequest;
import tracksoak.bench.recorder.SystemClocks;
import tracksoak.profiles.Session;
import tracksoak.report.record.DrillJson;
import tracksoak.report.record.DrillRecord;
import tracksoak.report.record.DriveFacts;
import tracksoak.report.verdict.Units;

/** What pulling the plug while recording costs, shown on a drive that may be spoilt. */
@Command(
        name = "drill",
        header = "Pull a drive while it records, and see what survives.",
        customSynopsis = {
            "tracksoak drill PATH --session NAME [--yes] [options]",
            "       tracksoak drill --simulated DRIVE --session NAME [options]"
        },
        description = {
            "Records, asks you to pull the drive out, waits until it is plugged in again, reads what survived of every "
                    + "track, and deletes it. A short take before it, stopped in order, shows what stopping first is worth.",
            "Pulling a drive that is written to may damage its file system and all that is on it. Never do it with a drive "
                    + "that holds the only copy of anything."
        },
        sortOptions = false)
final class DrillCommand implements Callable<Integer> {

    private static final double STOPPED_S = 5;
    private static final double LEAST_BEFORE_PULL_S = 12;
    private static final double PULL_LIMIT_S = 120;
    private static final double LONGEST_S = 24 * 3600;

    @Parameters(
            paramLabel = "PATH",
            arity = "0..1",
            description = "A folder on the drive to pull; tracksoak drives lists where drives are mounted.")
    @Nullable
    Path path;

    @Option(
            names = "--simulated",
            paramLabel = "DRIVE",
            completionCandidates = SimulatedNames.class,
            description = "A simulated drive instead. One of ${COMPLETION-CANDIDATES}.")
    @Nullable
    String simulated;

    @Mixin
    SessionChoice choice = new SessionChoice();

    @Option(
            names = "--after",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description = "Something else pulls the drive about so long into the take: 30s. Nobody is asked to then.")
    @Nullable
    Double afterS;

    @Option(
            names = "--wait",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "10min",
            description = "Wait so long for the drive to be plugged in again: 10min.")
    double waitS;

    @Option(names = "--yes", description = "Do it without asking: the drive named may be spoilt.")
    boolean yes;

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FOLDER",
            description =
                    "Put drill.html and drill.json here; not on the drive. Without it: a new folder of your records.")
    @Nullable
    Path out;

    @Mixin
    RunOptions runOptions = new RunOptions();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    @ArgGroup(validate = false, heading = "%nValues for this drill instead of the session's:%n")
    SessionOptions options = new SessionOptions();

    private final Console console;
    private final Rooms rooms;
    private final StopSignal stop;

    DrillCommand(Console console, Rooms rooms, StopSignal stop) {
        this.console = console;
        this.rooms = rooms;
        this.stop = stop;
    }

    @Override
    public Integer call() {
        Path asked = path;
        String model = simulated;
        if ((asked == null) == (model == null)) {
            throw Complaint.usage(
                    asked == null ? "no drive was given" : "a path and --simulated exclude each other",
                    "give the PATH of a folder on the drive (tracksoak drives lists them), or --simulated DRIVE");
        }
        within("--after", afterS, 1);
        within("--wait", waitS, 1);
        Session session = options.overrides().applyTo(choice.resolve(rooms));
        Double after = afterS;
        double pullAfterS = after != null ? after : Math.max(LEAST_BEFORE_PULL_S, 1.5 * session.flushS());
        Order order = Order.of(
                session,
                DrillRequest.plan(STOPPED_S, pullAfterS, PULL_LIMIT_S),
                runOptions.hangLimitS(),
                runOptions.reserveBytes(),
                runOptions.seed);
        DrillJob job = new DrillJob(console, stop);
        try (StopSignal.Watch watch = stop.onStop(job::cancel)) {
            int code = asked != null
                    ? onDrive(asked, order, pullAfterS, job)
                    : onModel(String.valueOf(model), order, pullAfterS, job);
            console.out().flush();
            return job.cancelled() || watch.stopped() ? Exit.INTERRUPTED : code;
        }
    }

    private static void within(String option, @Nullable Double seconds, double least) {
        if (seconds != null && (seconds < least || seconds > LONGEST_S)) {
            throw Complaint.usage(
                    option + " is " + Units.seconds(seconds) + "; allowed: " + Units.seconds(least) + " to "
                            + Units.seconds(LONGEST_S),
                    "choose a time in between");
        }
    }

    private int onDrive(Path asked, Order order, double pullAfterS, DrillJob job) {
        Preflight preflight = new Preflight(console, rooms);
        FoundDrive found = preflight.drive(asked, order, false);
        DrillFiles files = DrillFiles.in(folder(order));
        preflight.keepApart(found, files.run());
        preflight.tellLeftOvers(asked);
        agreed(found, asked);
        RealTarget target =
                RealTarget.open(found, asked, order.id().toString(), files.record(), rooms.stateFolder(), console);
        return show(
                job.onDrive(
                        request(order, target.facts(), pullAfterS), target, rooms.host(), files, watch(files, false)),
                files);
    }

    private int onModel(String model, Order order, double pullAfterS, DrillJob job) {
        SimulatedTarget target =
                new SimulatedTarget(SimulatedTarget.model(model), SystemClocks.EPOCH, order.hangLimitS());
        DrillFiles files = DrillFiles.in(folder(order));
        return show(
                job.onModel(
                        request(order, target.facts(), pullAfterS), target, rooms.host(), files, watch(files, true)),
                files);
    }

    private DrillWatch watch(DrillFiles files, boolean virtual) {
        return new DrillWatch(console, SystemClocks.NANO, files, afterS != null, waitS, virtual);
    }

    private DrillRequest request(Order order, DriveFacts facts, double pullAfterS) {
        Long seed = order.seed();
        return new DrillRequest(
                order.id().toString(),
                Version.tool(),
                order.session(),
                seed != null ? seed : order.id().getLeastSignificantBits(),
                order.hangLimitS(),
                order.reserve(facts),
                STOPPED_S,
                pullAfterS,
                PULL_LIMIT_S,
                waitS);
    }

    /** A destructive act needs its target named and a yes. */
    private void agreed(FoundDrive found, Path asked) {
        Long size = found.facts().sizeBytes();
        console.say("this drill pulls " + Words.plain(DriveText.name(found.facts()))
                + (size == null ? "" : ", " + Units.bytes(size)) + ", at " + Words.quoted(asked)
                + " out of the computer while it is written to.");
        console.say(
                "That may damage its file system and everything on it. Never do it with a drive that holds the only "
                        + "copy of anything.");
        if (yes) {
            return;
        }
        String answer = console.errIsTerminal() ? rooms.typedLine("Type the word pull to go on: ") : null;
        if (answer == null || !answer.strip().toLowerCase(Locale.ROOT).equals("pull")) {
            throw Complaint.usage("nothing was done, as nobody agreed to it", "add --yes if this drive may be spoilt");
        }
    }

    private int show(DrillRecord record, DrillFiles files) {
        if (json.asked) {
            console.out().print(DrillJson.write(record));
            console.say("sheet: " + Words.plain(files.sheet().toString()));
        } else {
            DrillSummary.print(record, files, console);
        }
        return switch (record.state()) {
            case COMPLETE -> Exit.DONE;
            case INTERRUPTED -> Exit.INTERRUPTED;
            case RUNNING, NOT_PULLED, FAILED, NOT_BACK -> Exit.COULD_NOT_RUN;
        };
    }

    private Path folder(Order order) {
        Path asked = out;
        return asked != null ? asked : RunFiles.usualFolder(rooms.recordsFolder(), SystemClocks.EPOCH, order.id());
    }
}
