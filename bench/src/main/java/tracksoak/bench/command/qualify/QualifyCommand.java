package tracksoak.bench.command.qualify;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.RunSummary;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.drives.DriveChoice;
import tracksoak.bench.command.drives.KeepsakeOption;
import tracksoak.bench.command.drives.OneDriveCommand;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.PlugWait;
import tracksoak.bench.job.Qualify;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.phase.run.RunExtras;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.json.RecordJson;

/** The bench's main job: from a path on a drive to a verdict and a report. */
@Command(
        name = "qualify",
        header = "Find out whether a drive carries a session, with evidence.",
        customSynopsis = {
            "tracksoak qualify PATH --session NAME --plan PLAN [options]",
            "       tracksoak qualify --simulated DRIVE --session NAME --plan PLAN [options]",
            "       tracksoak qualify --tray PATH... --session NAME --plan PLAN [options]"
        },
        description = {
            "Writes what the recorder will write into a new folder on the drive, measures what the recorder's buffer"
                    + " will feel, reads everything back, deletes it, and says PASS, FAIL or NO VERDICT.",
            "It opens no file that is already there. Still, never test a drive that holds the only copy of anything."
        },
        sortOptions = false)
public final class QualifyCommand extends OneDriveCommand {

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

    @Mixin
    TrayOptions tray = new TrayOptions();

    @Mixin
    Qualification qualification = new Qualification();

    @Mixin
    SessionOptions options = new SessionOptions("Values for this run instead of the session's");

    public QualifyCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms, stop);
    }

    @Override
    public Integer call() {
        if (tray.asked()) {
            return tray.run(this);
        }
        if (waitOptions.asked && drive.isSimulated()) {
            throw DriveChoice.wrong("nobody plugs in a simulated drive: --wait and --simulated exclude each other");
        }
        if (!waitOptions.asked) {
            drive.mustBeOne();
        }
        Order order = order();
        Qualification.Bench bench = qualification.bench(console, rooms, stop);
        return stop.during(
                bench.job().off(),
                console,
                () -> waitOptions.asked
                        ? onComing(order, bench)
                        : drive.choose(
                                path -> qualification.onDrive(path, order, null, bench, this::show),
                                model -> qualification.onModel(
                                        new SimulatedTarget(model, SystemClocks.EPOCH, order.hangLimitS()),
                                        order,
                                        bench,
                                        this::show)));
    }

    /** What is asked for of each drive. */
    Order order() {
        Session session = options.overrides().applyTo(choice.resolve(rooms));
        return qualification
                .run
                .order(session, planOptions.resolve(session))
                .with(new RunExtras(tagOption.tag(), "", keepsake.bytes(drive.isSimulated()), null));
    }

    private int onComing(Order order, Qualification.Bench bench) {
        PlugWait.Came came = bench.job().await(drive.path, waitOptions.limitS());
        return came == null ? Exit.INTERRUPTED : qualification.onDrive(came.path(), order, came, bench, this::show);
    }

    private void show(Qualify.Done done) {
        RunFiles files = done.files();
        if (qualification.json.asked) {
            console.out().print(RecordJson.write(done.record()));
            console.say("report: " + Inert.whole(files.report().toString()));
        } else {
            RunSummary.print(done.record(), files.report(), files.record(), console, qualification.more.asked);
        }
    }
}
