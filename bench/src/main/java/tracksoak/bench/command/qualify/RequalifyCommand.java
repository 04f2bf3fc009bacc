package tracksoak.bench.command.qualify;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.TagOption;
import tracksoak.bench.command.drives.DriveText;
import tracksoak.bench.command.drives.DrivesCommand;
import tracksoak.bench.command.drives.KeepsakeOption;
import tracksoak.bench.command.drives.OneDriveCommand;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.bench.job.EarlierRuns;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RosterRuns;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.job.RunJob;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.job.StopSignal;
import tracksoak.bench.phase.run.Plan;
import tracksoak.bench.phase.run.RunExtras;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.history.Difference;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;

/** Repeats the last run of a drive and says what has changed. */
@Command(
        name = "requalify",
        header = "Repeat the last run of a drive and say what has changed since.",
        customSynopsis = {
            "tracksoak requalify PATH [--records FOLDER] [--tag TEXT] [options]",
            "       tracksoak requalify --simulated DRIVE [options]"
        },
        description = {
            "Finds the drive's earlier records on this computer and in the roster, makes the last run again with the same "
                    + "plan and session, and holds its figures against all earlier runs that can be compared: whether it ages, "
                    + "at what pace, and whether it has become slow against its own best.",
            "The exit code is the verdict's, as with qualify; ageing alone is no FAIL."
        },
        sortOptions = false)
public final class RequalifyCommand extends OneDriveCommand {

    @Option(
            names = "--records",
            paramLabel = "FOLDER",
            description =
                    "Look for earlier records only here and in the folders below. Without it: your records and the "
                            + "roster.")
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

    @Mixin
    Qualification qualification = new Qualification();

    private final SessionOptions options = new SessionOptions("Values for this run instead of the last run's");

    public RequalifyCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms, stop);
    }

    @Spec
    void addSessionOptions(CommandSpec spec) {
        options.addTo(spec);
    }

    @Override
    public Integer call() {
        drive.mustBeOne();
        RunJob job = new RunJob(console, stop);
        return job.off()
                .during(stop, console, () -> drive.choose(path -> onDrive(path, job), model -> onModel(model, job)));
    }

    private int onDrive(Path path, RunJob job) {
        DriveFacts facts = DrivesCommand.find(rooms, path).facts();
        EarlierRuns earlier = earlier(facts);
        return qualification.onDrive(path, order(earlier, facts), null, bench(earlier, job));
    }

    private int onModel(DriveModel model, RunJob job) {
        SimulatedTarget target = new SimulatedTarget(model, SystemClocks.EPOCH, qualification.run.hangLimitS());
        EarlierRuns earlier = earlier(target.facts());
        return qualification.onModel(target, order(earlier, target.facts()), bench(earlier, job));
    }

    private Qualification.Bench bench(EarlierRuns earlier, RunJob job) {
        return new Qualification.Bench(console, rooms, job, (record, files) -> show(record, files, earlier));
    }

    private EarlierRuns earlier(DriveFacts facts) {
        Path asked = recordsFolder;
        Path folder = asked != null ? asked : rooms.recordsFolder();
        if (asked != null && !Files.isDirectory(asked)) {
            throw Problem.askedWrong(
                    Inert.quoted(asked) + " is no folder", "name the folder the records lie in with --records");
        }
        EarlierRuns inFolder = EarlierRuns.of(facts, tagOption.tag(), folder, console);
        EarlierRuns earlier = asked != null || qualification.rosterEntry.leftOut
                ? inFolder
                : RosterRuns.and(
                        inFolder, facts, tagOption.tag(), qualification.rosterEntry.rosterOption, rooms, console);
        if (earlier.found().isEmpty()) {
            throw Problem.cannot(
                    "no earlier run of " + Inert.quoted(DriveText.name(facts)) + " was found in " + Inert.quoted(folder)
                            + (asked == null && !qualification.rosterEntry.leftOut ? " or in the roster" : "")
                            + " (" + Count.inDigits(earlier.looked(), "record") + " looked at, none of this drive"
                            + (earlier.passedOver().isEmpty() ? "" : ", besides what is passed over") + ")"
                            + earlier.passedOver().stream()
                                    .map(sentence -> ". " + Inert.whole(sentence))
                                    .collect(Collectors.joining()),
                    "make the first one: tracksoak qualify PATH --session NAME --plan sound-check; records kept elsewhere: "
                            + "--records FOLDER; a drive without a serial number: --tag as it was given then");
        }
        return earlier;
    }

    /** The last plan and session, with what was given instead. */
    private Order order(EarlierRuns earlier, DriveFacts of) {
        RunRecord last = earlier.last().orElseThrow();
        Session session = options.overrides().applyTo(choice.given() ? choice.resolve(rooms) : last.session());
        Plan plan = planOptions.resolveLike(last.plan(), last.session(), session);
        String given = tagOption.tag();
        String tag = given != null ? given : last.tag();
        earlier.told("").forEach(way -> console.say("note: " + Inert.whole(way)));
        console.say(
                "repeats the run of " + last.startedAt() + ": " + plan.name().word() + " for " + session.name());
        Order order = qualification
                .run
                .order(session, plan)
                .with(new RunExtras(tag, last.id(), keepsake.bytes(drive.isSimulated()), null));
        List<String> apart = Difference.foreseen(order.plan().facts(0), session, of, last);
        if (!apart.isEmpty()) {
            console.say("note: the last run can then not be compared, because there: "
                    + Inert.whole(String.join("; ", apart)));
        }
        return order;
    }

    private void show(RunRecord record, RunFiles files, EarlierRuns earlier) {
        DriveHistory history = earlier.history(record, console);
        RunFiles.saveReport(files.report(), record, history);
        if (qualification.json.asked) {
            console.out().println(JsonText.of(HistoryText.json(record, history, files.report(), files.record())));
        } else {
            RunSummary.print(record, files.report(), files.record(), console);
            HistoryText.print(history, console.out());
        }
    }
}
