package tracksoak.bench.command;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.drive.FoundDrive;
import tracksoak.bench.phase.Besides;
import tracksoak.bench.recorder.SystemClocks;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Session;
import tracksoak.report.record.DriveFacts;
import tracksoak.report.record.RecordJson;
import tracksoak.report.record.RunRecord;
import tracksoak.report.verdict.Units;

/** The bench's main job: from a path on a drive to a verdict and a report. */
@Command(
        name = "qualify",
        header = "Find out whether a drive carries a session, with evidence.",
        customSynopsis = {
            "tracksoak qualify PATH --session NAME --plan PLAN [options]",
            "       tracksoak qualify --simulated DRIVE --session NAME --plan PLAN [options]"
        },
        description = {
            "Writes what the recorder will write into a new folder on the drive, measures what the recorder's buffer will "
                    + "feel, reads everything back, deletes it, and says PASS, FAIL or NO VERDICT.",
            "It opens no file that is already there. Still, never test a drive that holds the only copy of anything."
        },
        sortOptions = false)
final class QualifyCommand implements Callable<Integer> {

    @Parameters(
            paramLabel = "PATH",
            arity = "0..1",
            description = "A folder on the drive; tracksoak drives lists where drives are mounted.")
    @Nullable
    Path path;

    @Option(
            names = "--simulated",
            paramLabel = "DRIVE",
            completionCandidates = SimulatedNames.class,
            description = "A simulated drive instead: hours pass in seconds. One of ${COMPLETION-CANDIDATES}.")
    @Nullable
    String simulated;

    @Mixin
    SessionChoice choice = new SessionChoice();

    @Mixin
    PlanOptions planOptions = new PlanOptions();

    @Mixin
    TagOption tagOption = new TagOption();

    @Mixin
    KeepsakeOption keepsake = new KeepsakeOption();

    @Mixin
    WaitOptions waitOptions = new WaitOptions();

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FOLDER",
            description =
                    "Put report.html and record.json here; not on the drive under test. Without it: a new folder of "
                            + "your records.")
    @Nullable
    Path out;

    @Option(
            names = {"-n", "--dry-run"},
            description = "Only say what would be written where, for how long, and how many bytes of wear.")
    boolean dryRun;

    @Option(
            names = "--allow-system-drive",
            description = "Also test the drive this computer runs from. Its own work will disturb the run.")
    boolean allowSystemDrive;

    @Mixin
    RunOptions runOptions = new RunOptions();

    @Mixin
    RosterEntry rosterEntry = new RosterEntry();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    @ArgGroup(validate = false, heading = "%nValues for this run instead of the session's:%n")
    SessionOptions options = new SessionOptions();

    private final Console console;
    private final Rooms rooms;
    private final StopSignal stop;

    QualifyCommand(Console console, Rooms rooms, StopSignal stop) {
        this.console = console;
        this.rooms = rooms;
        this.stop = stop;
    }

    @Override
    public Integer call() {
        Path asked = path;
        String model = simulated;
        boolean anyDrive = waitOptions.asked && asked == null && model == null;
        if (((asked == null) == (model == null) && !anyDrive) || (waitOptions.asked && model != null)) {
            throw Complaint.usage(
                    waitOptions.asked
                            ? "nobody plugs in a simulated drive: --wait and --simulated exclude each other"
                            : asked == null ? "no drive was given" : "a path and --simulated exclude each other",
                    "give the PATH of a folder on the drive (tracksoak drives lists them), or --simulated DRIVE");
        }
        Session session = options.overrides().applyTo(choice.resolve(rooms));
        Order order = Order.of(
                        session,
                        planOptions.resolve(session),
                        runOptions.hangLimitS(),
                        runOptions.reserveBytes(),
                        runOptions.seed)
                .with(new Besides(tagOption.tag(), "", keepsake.bytes(model != null), null));
        RunJob job = new RunJob(console, stop);
        try (StopSignal.Watch watch = stop.onStop(job::cancel)) {
            int code = asked != null || anyDrive
                    ? onDrive(asked, order, job)
                    : onModel(SimulatedTarget.model(String.valueOf(model)), order, job);
            console.out().flush();
            return job.cancelled() || watch.stopped() ? Exit.INTERRUPTED : code;
        }
    }

    private int onDrive(@Nullable Path given, Order order, RunJob job) {
        PlugWait.Came came = waitOptions.asked ? waitOptions.await(given, rooms, console, job) : null;
        Path asked = came != null ? came.path() : given;
        if (asked == null || (waitOptions.asked && came == null)) {
            return Exit.INTERRUPTED;
        }
        Preflight preflight = new Preflight(console, rooms);
        FoundDrive found = preflight.drive(asked, order, allowSystemDrive);
        RunFiles files = RunFiles.in(records(order));
        preflight.keepApart(found, files);
        preflight.tellLeftOvers(asked);
        if (dryRun) {
            return show(order, found.facts(), asked.resolve("TRACKSOAK-*").toString());
        }
        RealTarget target =
                RealTarget.open(found, asked, order.id().toString(), files.record(), rooms.stateFolder(), console);
        Order timed = came == null ? order : order.ready(came.ready(SystemClocks.NANO.nanoTime()));
        return run(target.reading(timed, asked, rooms), target, files, job);
    }

    private int onModel(DriveModel model, Order order, RunJob job) {
        SimulatedTarget target = new SimulatedTarget(model, SystemClocks.EPOCH, order.hangLimitS());
        if (dryRun) {
            return show(order, target.facts(), target.leftIn());
        }
        return run(order, target, RunFiles.in(records(order)), job);
    }

    private int run(Order order, Target target, RunFiles files, RunJob job) {
        RunRecord record = job.run(order, target, rooms, files);
        if (json.asked) {
            console.out().print(RecordJson.write(record));
            console.say("report: " + Words.plain(files.report().toString()));
        } else {
            RunSummary.print(record, files.report(), files.record(), console);
        }
        console.out().flush();
        rosterEntry.enter(record, target.virtual(), rooms, console);
        return Exit.of(RunSummary.verdict(record).outcome());
    }

    private int show(Order order, DriveFacts facts, String folder) {
        if (order.besides().keepsakeBytes() > 0) {
            console.say("about " + Units.bytes(order.besides().keepsakeBytes())
                    + " of it would stay on the drive as a keepsake, in whole files");
        }
        DryRun would = new DryRun(
                facts,
                folder,
                records(order).toString(),
                order.session(),
                order.plan(),
                order.budget(facts),
                order.reserve(facts));
        if (json.asked) {
            console.out().println(JsonText.of(would.json()));
        } else {
            would.print(console.out());
        }
        return Exit.DONE;
    }

    private Path records(Order order) {
        Path asked = out;
        return asked != null ? asked : RunFiles.usualFolder(rooms.recordsFolder(), SystemClocks.EPOCH, order.id());
    }
}
