package tracksoak.bench.command.drill;

import java.nio.file.Path;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.MoreOption;
import tracksoak.bench.command.console.OutOption;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.drives.OneDriveCommand;
import tracksoak.bench.command.drives.RunOptions;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.DrillJob;
import tracksoak.bench.job.DrillTerms;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.drill.DrillRecord;
import tracksoak.report.record.json.RecordFormats;

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
public final class DrillCommand extends OneDriveCommand {

    @Mixin
    SessionChoice choice = new SessionChoice();

    @Option(
            names = "--after",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            description =
                    "Something else pulls the drive about so long into the take, such as 30s. Nobody is asked to then.")
    @Nullable
    Double afterS;

    @Option(
            names = "--wait",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "10min",
            description = "Wait so long for the drive to be plugged in again, usually 10min.")
    double waitS;

    @Option(names = "--yes", description = "Do it without asking: the drive named may be spoilt.")
    boolean yes;

    @Mixin
    OutOption out = new OutOption();

    @Mixin
    RunOptions runOptions = new RunOptions();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    MoreOption more = new MoreOption();

    @Mixin
    HelpOption help = new HelpOption();

    @Mixin
    SessionOptions options = new SessionOptions("Values for this drill instead of the session's");

    public DrillCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms, stop);
    }

    @Override
    public Integer call() {
        drive.mustBeOne();
        Amounts.bounded("--after", afterS, 1);
        Amounts.bounded("--wait", waitS, 1);
        Session session = options.overrides().applyTo(choice.resolve(rooms));
        DrillTerms terms = DrillTerms.of(session, afterS, waitS);
        Order order = runOptions.order(session, terms.plan());
        DrillJob job = new DrillJob(
                rooms, new DrillLines(console, stop::doNotWait, afterS != null, waitS, drive.isSimulated()));
        return stop.during(
                job.off(),
                console,
                () -> drive.choose(
                        path -> onDrive(path, order, terms, job),
                        model -> show(job.onModel(model, order, terms, out.folder(rooms, order.id())))));
    }

    private int onDrive(Path path, Order order, DrillTerms terms, DrillJob job) {
        Path folder = out.folder(rooms, order.id());
        FoundDrive found = job.look(path, order, folder);
        agreed(found, path);
        return show(job.onDrive(found, path, order, terms, folder));
    }

    /** A destructive act needs its target named and a yes. */
    private void agreed(FoundDrive found, Path asked) {
        Long size = found.facts().sizeBytes();
        console.say("this drill pulls " + Inert.whole(Drives.name(found.facts()))
                + (size == null ? "" : ", " + Units.bytes(size)) + ", at " + Inert.quoted(asked)
                + " out of the computer while it is written to.");
        console.say(
                "That may damage its file system and everything on it. Never do it with a drive that holds the only "
                        + "copy of anything.");
        if (yes) {
            return;
        }
        String answer = console.errIsTerminal() ? rooms.typedLine("Type the word pull to go on: ") : null;
        if (answer == null || !answer.strip().toLowerCase(Locale.ROOT).equals("pull")) {
            throw Problem.askedWrong(
                    "nothing was done, as nobody agreed to it", "add --yes if this drive may be spoilt");
        }
    }

    private int show(DrillJob.Done done) {
        DrillRecord record = done.record();
        if (json.asked) {
            console.out().print(RecordFormats.DRILL.write(record));
            console.say("sheet: " + Inert.whole(done.files().page().toString()));
        } else {
            DrillSummary.print(record, done.files(), console, more.asked);
        }
        return switch (record.state()) {
            case COMPLETE -> Exit.DONE;
            case INTERRUPTED -> Exit.INTERRUPTED;
            case RUNNING, NOT_PULLED, FAILED, NOT_BACK -> Exit.COULD_NOT_RUN;
        };
    }
}
