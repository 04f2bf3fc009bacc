package tracksoak.bench.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.drive.FoundDrive;
import tracksoak.bench.phase.Besides;
import tracksoak.bench.phase.Plan;
import tracksoak.bench.recorder.SystemClocks;
import tracksoak.profiles.Session;
import tracksoak.report.history.Difference;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.record.DriveFacts;
import tracksoak.report.record.PlanFacts;
import tracksoak.report.record.RunRecord;
import tracksoak.report.verdict.Units;

/** Repeats the last run of a drive and says what has changed. */
@Command(
        name = "requalify",
        header = "Repeat the last run of a drive and say what has changed since.",
        customSynopsis = {
            "tracksoak requalify PATH [--records FOLDER] [--tag TEXT] [options]",
            "       tracksoak requalify --simulated DRIVE [options]"
        },
        description = {
            "Finds the drive's earlier records on this computer, makes the last run again with the same plan and session, and "
                    + "holds its figures against all earlier runs that can be compared: whether it ages, at what pace, and "
                    + "whether it has become slow against its own best.",
            "The exit code is the verdict's, as with qualify; ageing alone is no FAIL."
        },
        sortOptions = false)
final class RequalifyCommand implements Callable<Integer> {

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
            description = "A simulated drive instead: ${COMPLETION-CANDIDATES}.")
    @Nullable
    String simulated;

    @Option(
            names = "--records",
            paramLabel = "FOLDER",
            description = "Look for earlier records here and in the folders below. Without it: your records.")
    @Nullable
    Path recordsFolder;

    @Mixin
    TagOption tagOption = new TagOption();

    @Mixin
    KeepsakeOption keepsake = new KeepsakeOption();

    @Mixin
    SessionChoice choice = new SessionChoice();

    @Mixin
    PlanOptions planOptions = new PlanOptions();

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
            description = "Only say what would be repeated and written.")
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

    @ArgGroup(validate = false, heading = "%nValues for this run instead of the last run's:%n")
    SessionOptions options = new SessionOptions();

    private final Console console;
    private final Rooms rooms;
    private final StopSignal stop;

    RequalifyCommand(Console console, Rooms rooms, StopSignal stop) {
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
        RunJob job = new RunJob(console, stop);
        try (StopSignal.Watch watch = stop.onStop(job::cancel)) {
            int code = asked != null ? onDrive(asked, job) : onModel(String.valueOf(model), job);
            console.out().flush();
            return job.cancelled() || watch.stopped() ? Exit.INTERRUPTED : code;
        }
    }

    private int onDrive(Path asked, RunJob job) {
        DriveFacts facts = DrivesCommand.find(rooms, asked).facts();
        EarlierRuns earlier = earlier(facts);
        Order order = order(earlier, facts);
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
        return run(target.reading(order, asked, rooms), target, files, earlier, job);
    }

    private int onModel(String name, RunJob job) {
        SimulatedTarget target =
                new SimulatedTarget(SimulatedTarget.model(name), SystemClocks.EPOCH, runOptions.hangLimitS());
        EarlierRuns earlier = earlier(target.facts());
        Order order = order(earlier, target.facts());
        if (dryRun) {
            return show(order, target.facts(), target.leftIn());
        }
        return run(order, target, RunFiles.in(records(order)), earlier, job);
    }

    private EarlierRuns earlier(DriveFacts drive) {
        Path asked = recordsFolder;
        Path folder = asked != null ? asked : rooms.recordsFolder();
        if (asked != null && !Files.isDirectory(asked)) {
            throw Complaint.usage(
                    Words.quoted(asked) + " is no folder", "name the folder the records lie in with --records");
        }
        EarlierRuns earlier = EarlierRuns.of(drive, tagOption.tag(), folder, console);
        if (earlier.found().isEmpty()) {
            throw Complaint.cannot(
                    "no earlier run of " + Words.quoted(DriveText.name(drive)) + " was found in " + Words.quoted(folder)
                            + " (" + Words.count(earlier.looked(), "record") + " looked at, none of this drive)",
                    "make the first one: tracksoak qualify PATH --session NAME --plan sound-check; records kept elsewhere: "
                            + "--records FOLDER; a drive without a serial number: --tag as it was given then");
        }
        return earlier;
    }

    /** The last plan and session, with what was given instead. */
    private Order order(EarlierRuns earlier, DriveFacts drive) {
        RunRecord last = earlier.last().orElseThrow();
        Session session = options.overrides().applyTo(choice.given() ? choice.resolve(rooms) : last.session());
        Plan plan = planOptions.resolveLike(last.plan(), session);
        String given = tagOption.tag();
        String tag = given != null ? given : last.tag();
        earlier.matched("").forEach(way -> console.say("note: " + Words.plain(way)));
        console.say("repeats the run of " + last.startedAt() + ": " + plan.name() + " for " + session.name());
        PlanFacts facts =
                PlanFacts.of(plan.name(), plan.shortened(), plan.takeBeforeS(), plan.fillCapS(), plan.takeAfterS(), 0);
        List<String> apart = Difference.foreseen(facts, session, drive, last);
        if (!apart.isEmpty()) {
            console.say("note: the last run can then not be compared, because there: "
                    + Words.plain(String.join("; ", apart)));
        }
        return Order.of(session, plan, runOptions.hangLimitS(), runOptions.reserveBytes(), runOptions.seed)
                .with(new Besides(tag, last.id(), keepsake.bytes(simulated != null), null));
    }

    private int run(Order order, Target target, RunFiles files, EarlierRuns earlier, RunJob job) {
        RunRecord record = job.run(order, target, rooms, files);
        DriveHistory history = earlier.history(record, console);
        RunFiles.saveReport(files.report(), record, history);
        if (json.asked) {
            console.out().println(JsonText.of(HistoryText.json(record, history, files.report(), files.record())));
        } else {
            RunSummary.print(record, files.report(), files.record(), console);
            HistoryText.print(history, console.out());
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
