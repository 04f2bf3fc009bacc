package tracksoak.bench.command.qualify;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.MoreOption;
import tracksoak.bench.command.console.OutOption;
import tracksoak.bench.command.console.RunSummary;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.drives.CareOptions;
import tracksoak.bench.command.drives.RunOptions;
import tracksoak.bench.job.Drives;
import tracksoak.bench.job.DryRun;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.JobTerms;
import tracksoak.bench.job.OffSwitch;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.PlugWait;
import tracksoak.bench.job.Qualify;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.profiles.base.Units;

/** The options of a qualification, and from an order to the exit code of its verdict. */
final class Qualification {

    @Mixin
    OutOption out = new OutOption();

    @Mixin
    CareOptions care = new CareOptions();

    @Mixin
    RunOptions run = new RunOptions();

    @Mixin
    LiveOptions live = new LiveOptions();

    @Mixin
    RosterEntryOptions rosterEntry = new RosterEntryOptions();

    @Mixin
    MoreOption more = new MoreOption();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    /** Shows a person or a program how it went. */
    interface Show {
        void show(Qualify.Done done);
    }

    /** What a command lends to its qualification. */
    record Bench(Console console, Rooms rooms, JobListener listener, Qualify job, Told told) {}

    Bench bench(Console console, Rooms rooms, StopSignal stop) {
        QualifyLines lines = new QualifyLines(console, stop::doNotWait, rosterEntry.rosterOption.typed());
        OffSwitch off = new OffSwitch();
        Told told = live.told(lines, off);
        return new Bench(console, rooms, told.listener(), new Qualify(rooms, told.listener(), off), told);
    }

    /** @param came how the drive came, null if it was not waited for */
    int onDrive(Path path, Order order, PlugWait.@Nullable Came came, Bench bench, Show show) {
        JobTerms terms = terms(order, bench);
        if (care.dryRun) {
            tellTag(path, order, bench);
            return wouldDo(bench.job().planOnDrive(path, order, terms), order, bench.console());
        }
        return bench.told().inTurn(bench.rooms(), order.session(), () -> {
            tellTag(path, order, bench);
            return done(bench.job().onDrive(path, order, came, terms), false, bench, show);
        });
    }

    private void tellTag(Path path, Order order, Bench bench) {
        String tag = order.extras().tag();
        if (tag != null) {
            rosterEntry
                    .against(Drives.at(bench.rooms(), path).facts(), tag, bench.rooms(), bench.console())
                    .forEach(bench.listener()::note);
        }
    }

    int onModel(SimulatedTarget target, Order order, Bench bench, Show show) {
        JobTerms terms = terms(order, bench);
        return care.dryRun
                ? wouldDo(Qualify.planOnModel(target, order, terms), order, bench.console())
                : bench.told()
                        .inTurn(
                                bench.rooms(),
                                order.session(),
                                () -> done(bench.job().onModel(target, order, terms), true, bench, show));
    }

    private JobTerms terms(Order order, Bench bench) {
        return new JobTerms(care.allowSystemDrive, out.folder(bench.rooms(), order.id()));
    }

    private int done(Qualify.Done done, boolean simulated, Bench bench, Show show) {
        bench.told().over(done.record());
        show.show(done);
        bench.console().out().flush();
        rosterEntry.enter(done.record(), simulated, bench);
        return Exit.of(RunSummary.verdict(done.record()).outcome());
    }

    private int wouldDo(DryRun would, Order order, Console console) {
        if (order.extras().keepsakeBytes() > 0) {
            console.say("about " + Units.bytes(order.extras().keepsakeBytes())
                    + " of it would stay on the drive as a keepsake, in whole files");
        }
        if (json.asked) {
            console.out().println(JsonText.of(DryRunText.json(would)));
        } else {
            DryRunText.print(would, console.out());
        }
        return Exit.DONE;
    }
}
