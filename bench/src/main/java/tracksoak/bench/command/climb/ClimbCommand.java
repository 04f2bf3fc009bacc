package tracksoak.bench.command.climb;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.MoreOption;
import tracksoak.bench.command.console.OutOption;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.drives.CareOptions;
import tracksoak.bench.command.drives.OneDriveCommand;
import tracksoak.bench.command.drives.RunOptions;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.bench.job.ClimbDryRun;
import tracksoak.bench.job.ClimbJob;
import tracksoak.bench.job.ClimbTerms;
import tracksoak.bench.job.JobTerms;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Rooms;
import tracksoak.profiles.Key;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.SessionOverrides;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.KebabCase;
import tracksoak.profiles.base.Problem;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.json.RecordFormats;

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
    MoreOption more = new MoreOption();

    @Mixin
    HelpOption help = new HelpOption();

    @Mixin
    SessionOptions options = new SessionOptions("Values for this climb instead of the session's");

    public ClimbCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms, stop);
    }

    @Override
    public Integer call() {
        drive.mustBeOne();
        Session base = session();
        ClimbTerms climb = climbOptions.terms(base, ladder(base));
        Order least = runOptions.order(climb.ladder().session(1), climb.check());
        JobTerms terms = new JobTerms(care.allowSystemDrive, out.folder(rooms, least.id()));
        ClimbJob job = new ClimbJob(rooms, new ClimbLines(console, stop::doNotWait));
        return stop.during(
                job.off(),
                console,
                () -> care.dryRun
                        ? drive.choose(
                                path -> show(job.planOnDrive(path, least, climb, terms)),
                                model -> show(ClimbJob.planOnModel(model, least, climb, terms)))
                        : drive.choose(
                                path -> show(job.onDrive(path, least, climb, terms)),
                                model -> show(job.onModel(model, least, climb, terms))));
    }

    private int show(ClimbJob.Done done) {
        ClimbRecord record = done.record();
        if (json.asked) {
            console.out().print(RecordFormats.CLIMB.write(record));
            console.say("page: " + Inert.whole(done.files().page().toString()));
        } else {
            ClimbSummary.print(record, done.files(), console, more.asked);
        }
        return record.state() == RunState.INTERRUPTED ? Exit.INTERRUPTED : ClimbSummary.exit(record);
    }

    private int show(ClimbDryRun would) {
        if (json.asked) {
            console.out().println(JsonText.of(ClimbDryRunText.json(would)));
        } else {
            ClimbDryRunText.print(would, console.out());
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
