package tracksoak.bench.command.demo;

import com.github.f4b6a3.uuid.UuidCreator;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.JsonCommand;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.RunSummary;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.console.TerminalListener;
import tracksoak.bench.command.console.Wrapped;
import tracksoak.bench.drive.find.FoundDrive;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.OpenTarget;
import tracksoak.bench.job.Order;
import tracksoak.bench.job.Preflight;
import tracksoak.bench.job.RealTarget;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.job.RunFolder;
import tracksoak.bench.job.RunJob;
import tracksoak.bench.job.SimulatedTarget;
import tracksoak.bench.phase.run.Plan;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.RunRecord;

/** Shows a newcomer a real run on this computer and a simulated one on a bad stick, within two minutes. */
@Command(
        name = "demo",
        header = "A first look: a short real run on this computer, and a simulated bad stick.",
        description = {
            "Records 16 tracks of an invented touring theatre for half a minute into a folder of this computer, then for "
                    + "two minutes onto a simulated stick that stops now and then (virtual time: that takes a second). "
                    + "Takes less than two minutes, writes about 70 MB and deletes them again; the two reports stay.",
            "With --roster: a roster of the theatre's dozen drives, made from simulated runs of the past months, in a new "
                    + "folder. Its page opens in your browser, where there is one, and is served to this computer alone until "
                    + "Ctrl-C; with --json it is only filled. Your own roster is left alone.",
            "With --recorder: the theatre's recorder is measured on a drive made of software, and its session file filled."
        },
        sortOptions = false)
public final class DemoCommand extends JsonCommand {

    static final String BAD_STICK = "tidying-stick";
    private static final double HANG_LIMIT_S = 20;
    private static final long RESERVE = 256L << 20;

    @Option(
            names = "--on",
            paramLabel = "FOLDER",
            description = "Folder for the real run. Without it: your cache folder.")
    @Nullable
    Path on;

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FOLDER",
            description = "Put both reports here. Without it: a new folder of your records.")
    @Nullable
    Path out;

    @Option(
            names = "--take",
            paramLabel = "TIME",
            converter = Amounts.Duration.class,
            defaultValue = "30s",
            description = "Length of the real take, usually 30s.")
    double takeS;

    @Option(
            names = "--recorder",
            description =
                    "Instead: the theatre's recorder is measured on a stand-in, and its session file filled, in seconds.")
    boolean recorder;

    @Mixin
    DemoRosterOptions rosterToo = new DemoRosterOptions();

    private final StopSignal stop;

    public DemoCommand(Console console, Rooms rooms, StopSignal stop) {
        super(console, rooms);
        this.stop = stop;
    }

    @Override
    public Integer call() throws InterruptedException {
        if (recorder) {
            if (rosterToo.asked) {
                throw Problem.askedWrong("--recorder and --roster exclude each other", "give one of them");
            }
            Path asked = out;
            Path folder = asked != null
                    ? asked
                    : rooms.recordsFolder().resolve("demo-recorder-" + UuidCreator.getTimeOrderedEpoch());
            return new DemoRecorderShow(console).show(folder, json.asked);
        }
        if (rosterToo.asked) {
            return new DemoRosterShow(console, rooms, stop).show(rosterToo, out, json.asked);
        }
        JobListener listener = new TerminalListener(console, stop::doNotWait);
        RunJob job = new RunJob(listener);
        return stop.during(job.off(), console, () -> show(job, listener));
    }

    private int show(RunJob job, JobListener listener) {
        if (takeS < 1 || takeS > 3600) {
            throw Problem.askedWrong(
                    "--take is " + Units.seconds(takeS) + "; allowed: 1 s to 1 h", "choose a time in between");
        }
        Session session = DemoSession.lanternWagon();
        Plan brief = Plan.lineCheck().withDurations(null, null, takeS).withIdle(0.0);
        Order real = Order.of(session, brief, HANG_LIMIT_S, RESERVE, null);
        Order bad = Order.of(session, Plan.lineCheck(), HANG_LIMIT_S, RESERVE, null);
        Path asked = out;
        Path folder = asked != null
                ? asked
                : RunFolder.usual(rooms.recordsFolder(), SystemClocks.EPOCH, real.id())
                        .resolveSibling("demo-" + real.id());
        RunFiles realFiles = RunFiles.in(folder.resolve("this-computer"));
        RunFiles badFiles = RunFiles.in(folder.resolve(BAD_STICK));
        console.say(session.title() + ": " + Units.rate((double) session.bytesPerSecond()) + " for "
                + Units.seconds(takeS) + " into a folder of this computer");
        RunRecord good = job.run(real, realTarget(real, realFiles, listener), rooms.host(), realFiles);
        if (job.off().cancelled()) {
            RunSummary.print(good, realFiles.report(), realFiles.record(), console, false);
            return Exit.INTERRUPTED;
        }
        console.say("now the simulated " + BAD_STICK + ": the same tracks for two minutes of virtual time");
        RunRecord failing = job.run(
                bad,
                new SimulatedTarget(SimulatedTarget.model(BAD_STICK), SystemClocks.EPOCH, HANG_LIMIT_S),
                rooms.host(),
                badFiles);
        if (json.asked) {
            Map<String, Object> document = JsonOption.document("demo/1");
            document.put("runs", List.of(run("this-computer", good, realFiles), run(BAD_STICK, failing, badFiles)));
            print(document);
        } else {
            print(good, realFiles, failing, badFiles);
        }
        return Exit.DONE;
    }

    private OpenTarget realTarget(Order order, RunFiles files, JobListener listener) {
        Path asked = on;
        Path folder = asked != null ? asked : rooms.cacheFolder();
        if (asked == null) {
            try {
                Files.createDirectories(folder);
            } catch (IOException refused) {
                throw Problem.cannot(
                        "the folder " + Inert.quoted(folder) + " cannot be made (" + Problem.reason(refused) + ")",
                        "name another with --on");
            }
        }
        FoundDrive found = new Preflight(rooms, listener).drive(folder, order, true);
        return RealTarget.open(found, folder, order.id().toString(), files.record(), rooms, listener);
    }

    private void print(RunRecord good, RunFiles goodFiles, RunRecord failing, RunFiles failingFiles) {
        console.out().println();
        console.out().println("This computer, a short real run:");
        RunSummary.print(good, goodFiles.report(), goodFiles.record(), console, false);
        if (RunSummary.verdict(good).criteria().stream().anyMatch(Criterion::decidedByHost)) {
            new Wrapped(console)
                    .print(
                            "",
                            "This computer was too busy with other work to measure its drive fairly, and then no "
                                    + "verdict is the honest answer. Close other programs and try again.");
        }
        console.out().println();
        console.out().println("A simulated stick that stops for three seconds every two minutes:");
        RunSummary.print(failing, failingFiles.report(), failingFiles.record(), console, false);
        console.out().println();
        console.out().println("Next: plug in your drive, then: tracksoak drives");
    }

    private static Map<String, Object> run(String name, RunRecord record, RunFiles files) {
        Map<String, Object> run = new LinkedHashMap<>();
        run.put("name", name);
        run.put("outcome", RunSummary.verdict(record).outcome().name());
        run.put("sentence", RunSummary.verdict(record).sentence());
        run.put("report", files.report().toString());
        run.put("record", files.record().toString());
        return run;
    }
}
