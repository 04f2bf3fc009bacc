package tracksoak.bench.command.qualify;

import java.nio.file.Path;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.drives.KeepsakeOption;
import tracksoak.bench.command.drives.OneDriveCommand;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.EarlierRuns;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Qualify;
import tracksoak.bench.job.Requalify;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.roster.store.RosterPlace;

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

    @Mixin
    SessionOptions options = new SessionOptions("Values for this run instead of the last run's");

    public RequalifyCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms, stop);
    }

    @Override
    public Integer call() {
        drive.mustBeOne();
        Qualification.Bench bench = qualification.bench(console, rooms, stop);
        return stop.during(
                bench.job().off(),
                console,
                () -> drive.choose(path -> onDrive(path, bench), model -> onModel(model, bench)));
    }

    private int onDrive(Path path, Qualification.Bench bench) {
        DriveFacts facts = Drives.at(rooms, path).facts();
        Again again = again(facts, bench);
        return qualification.onDrive(path, again.order(), null, bench, done -> show(done, again));
    }

    private int onModel(DriveModel model, Qualification.Bench bench) {
        SimulatedTarget target = new SimulatedTarget(model, SystemClocks.EPOCH, qualification.run.hangLimitS());
        Again again = again(target.facts(), bench);
        return qualification.onModel(target, again.order(), bench, done -> show(done, again));
    }

    /** What is done again, and what it will be held against. */
    private record Again(Requalify job, EarlierRuns earlier, Order order) {}

    /** The last plan and session, with what was given instead. */
    private Again again(DriveFacts facts, Qualification.Bench bench) {
        Requalify job = new Requalify(rooms, bench.listener());
        RosterEntryOptions entry = qualification.rosterEntry;
        Supplier<RosterPlace> roster =
                recordsFolder != null || entry.leftOut ? null : () -> entry.rosterOption.place(rooms, console);
        EarlierRuns earlier = job.earlier(facts, tagOption.tag(), recordsFolder, roster);
        RunRecord last = earlier.last().orElseThrow();
        Session session = options.overrides().applyTo(choice.given() ? choice.resolve(rooms) : last.session());
        Order fresh = qualification.run.order(session, planOptions.resolveLike(last.plan(), last.session(), session));
        Order order = job.order(earlier, last, fresh, tagOption.tag(), keepsake.bytes(drive.isSimulated()), facts);
        return new Again(job, earlier, order);
    }

    private void show(Qualify.Done done, Again again) {
        DriveHistory history = again.job().history(again.earlier(), done);
        RunFiles files = done.files();
        if (qualification.json.asked) {
            console.out()
                    .println(JsonText.of(HistoryText.json(done.record(), history, files.report(), files.record())));
        } else {
            HistoryText.print(
                    done.record(), history, files.report(), files.record(), console, qualification.more.asked);
        }
    }
}
