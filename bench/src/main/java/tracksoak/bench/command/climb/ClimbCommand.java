package tracksoak.bench.command.climb;

import java.nio.file.Path;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;
import tracksoak.bench.climb.Climb;
import tracksoak.bench.climb.ClimbOrder;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.OutOption;
import tracksoak.bench.command.drives.CareOptions;
import tracksoak.bench.command.drives.OneDriveCommand;
import tracksoak.bench.command.qualify.RunOptions;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.ClimbFiles;
import tracksoak.bench.job.ClimbRoom;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Preflight;
import tracksoak.bench.job.RealTarget;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.job.RunJob;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.job.StopSignal;
import tracksoak.bench.job.Target;
import tracksoak.bench.job.TargetClimbRunner;
import tracksoak.bench.job.Version;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Key;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.SessionOverrides;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.json.ClimbJson;

/** How many tracks does this drive carry? */
@Command(
        name = "climb",
        header = "Find out how many tracks a drive carries.",
        customSynopsis = {
            "tracksoak climb PATH --session NAME [options]",
            "       tracksoak climb --simulated DRIVE --session NAME [options]"
        },
        description = {
            "Fills the drive until it is steady, finds with short takes where it begins to miss the session's margins and "
                    + "where it loses audio, and confirms both numbers with a sound-check each. If a sound-check does not "
                    + "hold, it steps down until one does; no number is given that did not hold in one.",
            "It opens no file that is already there. Still, never test a drive that holds the only copy of anything."
        },
        sortOptions = false)
public final class ClimbCommand extends OneDriveCommand {

    @Mixin
    SessionChoice choice = new SessionChoice();

    @Mixin
    ClimbOptions climbOptions = new ClimbOptions();

    @Mixin
    OutOption out = new OutOption();

    @Mixin
    CareOptions care = new CareOptions();

    @Mixin
    RunOptions runOptions = new RunOptions();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    private final SessionOptions options = new SessionOptions("Values for this climb instead of the session's");

    public ClimbCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms, stop);
    }

    @Spec
    void addSessionOptions(CommandSpec spec) {
        options.addTo(spec);
    }

    @Override
    public Integer call() {
        drive.mustBeOne();
        Session base = session();
        Ladder ladder = ladder(base);
        Order least = runOptions.order(ladder.session(1), climbOptions.check());
        int code =
                drive.choose(path -> onDrive(path, base, ladder, least), model -> onModel(model, base, ladder, least));
        console.out().flush();
        return code;
    }

    private int onDrive(Path path, Session base, Ladder ladder, Order least) {
        ClimbFiles files = ClimbFiles.in(out.folder(rooms, least.id()));
        FoundDrive found =
                new Preflight(console, rooms).pass(path, least, care.allowSystemDrive, new RunFiles(files.folder()));
        ClimbRoom room = ClimbRoom.of(ladder, found.facts(), least.reserve(found.facts()), climbOptions);
        if (care.dryRun) {
            return show(base, room, found.facts(), path.resolve("TRACKSOAK-*").toString(), files);
        }
        RealTarget target =
                RealTarget.open(found, path, least.id().toString(), files.record(), rooms.stateFolder(), console);
        return climb(base, room, target, null, files, least);
    }

    private int onModel(DriveModel model, Session base, Ladder ladder, Order least) {
        Supplier<SimulatedTarget> fresh = () -> new SimulatedTarget(model, SystemClocks.EPOCH, least.hangLimitS());
        SimulatedTarget target = fresh.get();
        ClimbFiles files = ClimbFiles.in(out.folder(rooms, least.id()));
        ClimbRoom room = ClimbRoom.of(ladder, target.facts(), least.reserve(target.facts()), climbOptions);
        if (care.dryRun) {
            return show(base, room, target.facts(), target.leftIn(), files);
        }
        return climb(base, room, target, fresh, files, least);
    }

    private int climb(
            Session base,
            ClimbRoom room,
            Target target,
            @Nullable Supplier<? extends Target> renewed,
            ClimbFiles files,
            Order least) {
        ClimbOrder order = new ClimbOrder(
                least.id().toString(),
                Version.tool(),
                least.payloadSeed(),
                base,
                room.ladder(),
                room.because(),
                climbOptions.shortTakeS(),
                climbOptions.fillCapS(),
                climbOptions.check(),
                !climbOptions.onlyMargin,
                climbOptions.proveAbove || renewed != null,
                target.facts(),
                rooms.host());
        ClimbWatch watch = new ClimbWatch(console, SystemClocks.NANO, files, order, target.virtual());
        TargetClimbRunner runner = new TargetClimbRunner(
                target,
                renewed,
                new TargetClimbRunner.Terms(
                        order.seed(), least.hangLimitS(), room.reserveBytes(), room.takeBytes(), rooms.host()),
                watch);
        try (StopSignal.Watch signal = stop.onStop(runner.off()::cancel)) {
            ClimbRecord record;
            try {
                record = new Climb(order, runner, target.epoch(), watch).call();
            } finally {
                watch.end();
                leave(target, runner);
            }
            files.savePage(record);
            if (json.asked) {
                console.out().print(ClimbJson.write(record));
                console.say("page: " + Inert.whole(files.page().toString()));
            } else {
                ClimbSummary.print(record, files, console);
            }
            console.out().flush();
            return runner.off().cancelled() || signal.stopped() || record.state() == RunState.INTERRUPTED
                    ? Exit.INTERRUPTED
                    : ClimbSummary.exit(record);
        }
    }

    private void leave(Target target, TargetClimbRunner runner) {
        if (runner.hangs()) {
            RunJob.leaveHanging(target, console, stop);
        } else {
            target.clean();
        }
    }

    private int show(Session base, ClimbRoom room, DriveFacts facts, String folder, ClimbFiles files) {
        ClimbDryRun would = new ClimbDryRun(
                facts, folder, files.folder().toString(), base, room, climbOptions, climbOptions.proveAbove);
        if (json.asked) {
            console.out().println(JsonText.of(would.json()));
        } else {
            would.print(console.out());
        }
        return Exit.DONE;
    }

    private Session session() {
        SessionOverrides given = options.overrides();
        Session session = given.applyTo(choice.resolve(rooms));
        Double margin = climbOptions.margin;
        if (margin != null) {
            session = SessionOverrides.none()
                    .with(Key.MARGIN_BUFFER, given.has(Key.MARGIN_BUFFER) ? null : margin)
                    .with(Key.MARGIN_RATE, given.has(Key.MARGIN_RATE) ? null : margin)
                    .applyTo(session);
        }
        if (session.kind() != SessionKind.RECORDING) {
            throw Problem.askedWrong(
                    "the session " + session.name() + " is a " + KebabCase.of(session.kind()) + ", and a climb records",
                    "choose a session that records");
        }
        return session;
    }

    private Ladder ladder(Session base) {
        int most = climbOptions.mostTracks();
        if (climbOptions.grows() == Ladder.Kind.SAMPLE_RATE) {
            return Ladder.sampleRates(base);
        }
        if (base.groups().size() > 1) {
            throw Problem.askedWrong(
                    "the session " + base.name() + " has tracks of "
                            + base.groups().size() + " kinds, and a climb could not say which to add",
                    "choose a session with one kind of track, or --grow sample-rate");
        }
        return Ladder.tracks(base, most);
    }
}
