package tracksoak.bench.command;

import com.github.f4b6a3.uuid.UuidCreator;
import java.nio.file.Path;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.climb.Climb;
import tracksoak.bench.climb.ClimbOrder;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.drive.FoundDrive;
import tracksoak.bench.phase.Plan;
import tracksoak.bench.recorder.SystemClocks;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.SessionOverrides;
import tracksoak.report.record.ClimbJson;
import tracksoak.report.record.ClimbRecord;
import tracksoak.report.record.DriveFacts;
import tracksoak.report.record.RunState;

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
final class ClimbCommand implements Callable<Integer> {

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
    ClimbOptions climbOptions = new ClimbOptions();

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FOLDER",
            description =
                    "Put climb.html, climb.json and the sound-checks here; not on the drive under test. Without it: "
                            + "a new folder of your records.")
    @Nullable
    Path out;

    @Option(
            names = {"-n", "--dry-run"},
            description = "Only say what would be written where, for how long, and how many bytes of wear.")
    boolean dryRun;

    @Option(
            names = "--allow-system-drive",
            description = "Also test the drive this computer runs from. Its own work will disturb the climb.")
    boolean allowSystemDrive;

    @Mixin
    RunOptions runOptions = new RunOptions();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    @ArgGroup(validate = false, heading = "%nValues for this climb instead of the session's:%n")
    SessionOptions options = new SessionOptions();

    private final Console console;
    private final Rooms rooms;
    private final StopSignal stop;

    ClimbCommand(Console console, Rooms rooms, StopSignal stop) {
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
        Session base = session();
        Ladder ladder = ladder(base);
        UUID id = UuidCreator.getTimeOrderedEpoch();
        int code = asked != null
                ? onDrive(asked, base, ladder, id)
                : onModel(SimulatedTarget.model(String.valueOf(model)), base, ladder, id);
        console.out().flush();
        return code;
    }

    private int onDrive(Path asked, Session base, Ladder ladder, UUID id) {
        Plan check = climbOptions.check();
        Preflight preflight = new Preflight(console, rooms);
        Order least =
                Order.of(ladder.session(1), check, runOptions.hangLimitS(), runOptions.reserveBytes(), runOptions.seed);
        FoundDrive found = preflight.drive(asked, least, allowSystemDrive);
        ClimbFiles files = ClimbFiles.in(records(id));
        preflight.keepApart(found, new RunFiles(files.folder()));
        preflight.tellLeftOvers(asked);
        ClimbRoom room = ClimbRoom.of(ladder, found.facts(), least.reserve(found.facts()), climbOptions);
        if (dryRun) {
            return show(base, room, found.facts(), asked.resolve("TRACKSOAK-*").toString(), files);
        }
        RealTarget target = RealTarget.open(found, asked, id.toString(), files.record(), rooms.stateFolder(), console);
        return climb(base, room, target, null, files, id);
    }

    private int onModel(DriveModel model, Session base, Ladder ladder, UUID id) {
        Supplier<SimulatedTarget> fresh = () -> new SimulatedTarget(model, SystemClocks.EPOCH, runOptions.hangLimitS());
        SimulatedTarget target = fresh.get();
        Order least = Order.of(
                ladder.session(1),
                climbOptions.check(),
                runOptions.hangLimitS(),
                runOptions.reserveBytes(),
                runOptions.seed);
        ClimbFiles files = ClimbFiles.in(records(id));
        ClimbRoom room = ClimbRoom.of(ladder, target.facts(), least.reserve(target.facts()), climbOptions);
        if (dryRun) {
            return show(base, room, target.facts(), target.leftIn(), files);
        }
        return climb(base, room, target, fresh, files, id);
    }

    private int climb(
            Session base,
            ClimbRoom room,
            Target target,
            @Nullable Supplier<? extends Target> renewed,
            ClimbFiles files,
            UUID id) {
        Long asked = runOptions.seed;
        ClimbOrder order = new ClimbOrder(
                id.toString(),
                Version.tool(),
                asked == null ? id.getLeastSignificantBits() : asked,
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
        ClimbGround ground = new ClimbGround(
                target,
                renewed,
                new ClimbGround.Terms(
                        order.seed(), runOptions.hangLimitS(), room.reserveBytes(), room.takeBytes(), rooms.host()),
                watch);
        try (StopSignal.Watch signal = stop.onStop(ground::cancel)) {
            ClimbRecord record;
            try {
                record = new Climb(order, ground, target.epoch(), watch).call();
            } finally {
                watch.end();
                leave(target, ground);
            }
            files.savePage(record);
            if (json.asked) {
                console.out().print(ClimbJson.write(record));
                console.say("page: " + Words.plain(files.page().toString()));
            } else {
                ClimbSummary.print(record, files, console);
            }
            console.out().flush();
            return ground.cancelled() || signal.stopped() || record.state() == RunState.INTERRUPTED
                    ? Exit.INTERRUPTED
                    : ClimbSummary.exit(record);
        }
    }

    private void leave(Target target, ClimbGround ground) {
        if (ground.hangs()) {
            stop.doNotWait();
            console.complain(
                    "the drive does not come back from a call, so it is not touched any more; what was written is "
                            + "still in " + Words.quoted(target.leftIn()),
                    "unplug it, plug it in again, then: tracksoak clear PATH --yes");
        } else {
            target.clean();
        }
    }

    private int show(Session base, ClimbRoom room, DriveFacts drive, String folder, ClimbFiles files) {
        ClimbDryRun would = new ClimbDryRun(
                drive, folder, files.folder().toString(), base, room, climbOptions, climbOptions.proveAbove);
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
            session = SessionOverrides.builder()
                    .marginBuffer(given.marginBuffer() == null ? margin : null)
                    .marginRate(given.marginRate() == null ? margin : null)
                    .build()
                    .applyTo(session);
        }
        if (session.kind() != SessionKind.RECORDING) {
            throw Complaint.usage(
                    "the session " + session.name() + " is a " + Words.of(session.kind()) + ", and a climb records",
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
            throw Complaint.usage(
                    "the session " + base.name() + " has tracks of "
                            + base.groups().size() + " kinds, and a climb could not say which to add",
                    "choose a session with one kind of track, or --grow sample-rate");
        }
        return Ladder.tracks(base, most);
    }

    private Path records(UUID id) {
        Path asked = out;
        return asked != null ? asked : RunFiles.usualFolder(rooms.recordsFolder(), SystemClocks.EPOCH, id);
    }
}
