package tracksoak.bench.command.drill;

import java.nio.file.Path;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.OutOption;
import tracksoak.bench.command.drives.DriveText;
import tracksoak.bench.command.drives.OneDriveCommand;
import tracksoak.bench.command.qualify.PlanOptions;
import tracksoak.bench.command.qualify.RunOptions;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.DrillFiles;
import tracksoak.bench.job.DrillJob;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Preflight;
import tracksoak.bench.job.RealTarget;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.job.StopSignal;
import tracksoak.bench.job.Version;
import tracksoak.bench.phase.drill.DrillRequest;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DrillRecord;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.json.DrillJson;

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

    private static final double STOPPED_S = 5;
    private static final double LEAST_BEFORE_PULL_S = 12;
    private static final double PULL_LIMIT_S = 120;

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

    @Mixin
    OutOption out = new OutOption();

    @Mixin
    RunOptions runOptions = new RunOptions();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    private final SessionOptions options = new SessionOptions("Values for this drill instead of the session's");

    public DrillCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms, stop);
    }

    @Spec
    void addSessionOptions(CommandSpec spec) {
        options.addTo(spec);
    }

    @Override
    public Integer call() {
        drive.mustBeOne();
        PlanOptions.bounded("--after", afterS, 1);
        PlanOptions.bounded("--wait", waitS, 1);
        Session session = options.overrides().applyTo(choice.resolve(rooms));
        Double after = afterS;
        double pullAfterS = after != null ? after : Math.max(LEAST_BEFORE_PULL_S, 1.5 * session.flushS());
        Order order = runOptions.order(session, DrillRequest.plan(STOPPED_S, pullAfterS, PULL_LIMIT_S));
        DrillJob job = new DrillJob(console, stop);
        return job.off()
                .during(
                        stop,
                        console,
                        () -> drive.choose(
                                path -> onDrive(path, order, pullAfterS, job),
                                model -> onModel(model, order, pullAfterS, job)));
    }

    private int onDrive(Path path, Order order, double pullAfterS, DrillJob job) {
        DrillFiles files = DrillFiles.in(out.folder(rooms, order.id()));
        FoundDrive found = new Preflight(console, rooms).pass(path, order, false, files.run());
        agreed(found, path);
        RealTarget target =
                RealTarget.open(found, path, order.id().toString(), files.record(), rooms.stateFolder(), console);
        return show(
                job.onDrive(
                        request(order, target.facts(), pullAfterS), target, rooms.host(), files, watch(files, false)),
                files);
    }

    private int onModel(DriveModel model, Order order, double pullAfterS, DrillJob job) {
        SimulatedTarget target = new SimulatedTarget(model, SystemClocks.EPOCH, order.hangLimitS());
        DrillFiles files = DrillFiles.in(out.folder(rooms, order.id()));
        return show(
                job.onModel(
                        request(order, target.facts(), pullAfterS), target, rooms.host(), files, watch(files, true)),
                files);
    }

    private DrillWatch watch(DrillFiles files, boolean virtual) {
        return new DrillWatch(console, SystemClocks.NANO, files, afterS != null, waitS, virtual);
    }

    private DrillRequest request(Order order, DriveFacts facts, double pullAfterS) {
        return new DrillRequest(
                order.id().toString(),
                Version.tool(),
                order.session(),
                order.payloadSeed(),
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
        console.say("this drill pulls " + Inert.whole(DriveText.name(found.facts()))
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

    private int show(DrillRecord record, DrillFiles files) {
        if (json.asked) {
            console.out().print(DrillJson.write(record));
            console.say("sheet: " + Inert.whole(files.sheet().toString()));
        } else {
            DrillSummary.print(record, files, console);
        }
        return switch (record.state()) {
            case COMPLETE -> Exit.DONE;
            case INTERRUPTED -> Exit.INTERRUPTED;
            case RUNNING, NOT_PULLED, FAILED, NOT_BACK -> Exit.COULD_NOT_RUN;
        };
    }
}
