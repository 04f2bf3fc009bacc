package tracksoak.bench.command.qualify;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.OutOption;
import tracksoak.bench.command.drives.CareOptions;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.PlugWait;
import tracksoak.bench.job.Preflight;
import tracksoak.bench.job.RealTarget;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.job.RunJob;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.job.Target;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.RunRecord;

/** How a qualification is carried out, and the carrying out: from an order to the exit code of its verdict. */
final class Qualification {

    @Mixin
    OutOption out = new OutOption();

    @Mixin
    CareOptions care = new CareOptions();

    @Mixin
    RunOptions run = new RunOptions();

    @Mixin
    RosterEntry rosterEntry = new RosterEntry();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    HelpOption help = new HelpOption();

    /** Shows a person or a program how it went. */
    interface Show {
        void show(RunRecord record, RunFiles files);
    }

    /** What a command lends to its qualification. */
    record Bench(Console console, Rooms rooms, RunJob job, Show show) {}

    /** @param came how the drive came, null if it was not waited for */
    int onDrive(Path asked, Order order, PlugWait.@Nullable Came came, Bench bench) {
        RunFiles files = files(order, bench);
        Preflight preflight = new Preflight(bench.console(), bench.rooms());
        FoundDrive found = preflight.pass(asked, order, care.allowSystemDrive, files);
        preflight.tellWhereItDoesNotFit(found, order);
        if (care.dryRun) {
            return wouldDo(order, found.facts(), asked.resolve("TRACKSOAK-*").toString(), bench);
        }
        RealTarget target = RealTarget.open(
                found,
                asked,
                order.id().toString(),
                files.record(),
                bench.rooms().stateFolder(),
                bench.console());
        Order timed = came == null ? order : order.ready(came.ready(SystemClocks.NANO.nanoTime()));
        return carryOut(target.reading(timed, asked, bench.rooms()), target, files, bench);
    }

    int onModel(SimulatedTarget target, Order order, Bench bench) {
        if (care.dryRun) {
            return wouldDo(order, target.facts(), target.leftIn(), bench);
        }
        return carryOut(order, target, files(order, bench), bench);
    }

    private int carryOut(Order order, Target target, RunFiles files, Bench bench) {
        RunRecord record = bench.job().run(order, target, bench.rooms(), files);
        bench.show().show(record, files);
        bench.console().out().flush();
        rosterEntry.enter(record, target.virtual(), bench.rooms(), bench.console());
        return Exit.of(RunSummary.verdict(record).outcome());
    }

    private int wouldDo(Order order, DriveFacts facts, String folder, Bench bench) {
        Console console = bench.console();
        if (order.extras().keepsakeBytes() > 0) {
            console.say("about " + Units.bytes(order.extras().keepsakeBytes())
                    + " of it would stay on the drive as a keepsake, in whole files");
        }
        DryRun would = new DryRun(
                facts,
                folder,
                out.folder(bench.rooms(), order.id()).toString(),
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

    private RunFiles files(Order order, Bench bench) {
        return RunFiles.in(out.folder(bench.rooms(), order.id()));
    }
}
