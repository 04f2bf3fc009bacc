package tracksoak.bench.command.qualify;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.JsonText;
import tracksoak.bench.command.console.MoreOption;
import tracksoak.bench.command.console.RunSummary;
import tracksoak.bench.command.console.TerminalListener;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.command.session.SessionOptions;
import tracksoak.bench.job.EarlierRuns;
import tracksoak.bench.job.JobListener;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.RunFiles;
import tracksoak.bench.job.RunFolder;
import tracksoak.bench.replay.Replay;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.record.facts.RecordException;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.record.json.RecordFile;
import tracksoak.report.record.json.RecordJson;
import tracksoak.report.verdict.Judge;
import tracksoak.report.verdict.ShowOdds;

/** Renders the report of a run again, or judges the run for another session. */
@Command(
        name = "report",
        header = "Render the report of a run again, or judge it for another session.",
        customSynopsis =
                "tracksoak report RECORD [--session NAME | --session-file FILE] [--out FOLDER] [--json] [values]",
        sortOptions = false,
        description = {
            "With --session or --session-file the same facts are judged for that session, without a new run; what they "
                    + "cannot answer is marked as not tested. The exit code is the verdict's.",
            "Where that leaves no verdict, the run's own times are replayed at the other session's demand: an estimate, "
                    + "shown beside the verdict and never in its place."
        })
public final class ReportCommand implements Callable<Integer> {

    @Mixin
    HelpOption help = new HelpOption();

    @Mixin
    MoreOption more = new MoreOption();

    @Mixin
    JsonOption json = new JsonOption();

    @Mixin
    SessionChoice choice = new SessionChoice();

    @Parameters(paramLabel = "RECORD", description = "A record.json, or the folder it is in.")
    Path path = Path.of("");

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FOLDER",
            description = "Put report.html and record.json here. Without it: the report goes beside the record, and a "
                    + "verdict for another session is only shown.")
    @Nullable
    Path out;

    @Option(
            names = "--history",
            paramLabel = "FOLDER",
            description =
                    "Also hold the run against earlier ones of the same drive, whose records lie in this folder or "
                            + "below; --json then prints what changed.")
    @Nullable
    Path history;

    @Mixin
    SessionOptions options = new SessionOptions("Values instead of the session's");

    private final Console console;
    private final Rooms rooms;

    public ReportCommand(Console console, Rooms rooms) {
        this.console = console;
        this.rooms = rooms;
    }

    @Override
    public Integer call() {
        Path file = Files.isDirectory(path) ? path.resolve(RunFolder.Kind.RUN.record()) : path;
        RunRecord stored = load(file);
        Session session = options.overrides().applyTo(choice.given() ? choice.resolve(rooms) : stored.session());
        boolean again = !session.equals(stored.session());
        RunRecord record = stored.withVerdict(judged(session, stored, again));
        DriveHistory past = past(record);
        Path report = null;
        Path kept = null;
        Path folder = out;
        if (folder != null) {
            RunFiles files = RunFiles.in(folder);
            files.save(record);
            if (past != null) {
                RunFiles.saveReport(files.report(), record, past);
            }
            report = files.report();
            kept = files.record();
        } else if (!json.asked && !again) {
            report = beside(file, record, past);
        }
        if (json.asked) {
            console.out()
                    .print(
                            past == null
                                    ? RecordJson.write(record)
                                    : JsonText.of(HistoryText.json(record, past, report, kept)) + "\n");
        } else {
            Path shown = kept == null && !again ? file : kept;
            if (past == null) {
                RunSummary.print(record, report, shown, console, more.asked);
            } else {
                HistoryText.print(record, past, report, shown, console, more.asked);
            }
            if (report == null) {
                console.say("nothing was written; add --out FOLDER to keep this verdict and its report");
            }
        }
        return Exit.of(RunSummary.verdict(record).outcome());
    }

    private @Nullable DriveHistory past(RunRecord record) {
        Path folder = history;
        if (folder == null) {
            return null;
        }
        if (!Files.isDirectory(folder)) {
            throw Problem.askedWrong(
                    Inert.quoted(folder) + " is no folder",
                    "name the folder the earlier records lie in with --history");
        }
        JobListener listener = new TerminalListener(console, () -> {});
        return EarlierRuns.of(record.drive(), record.tag(), folder, listener).history(record, listener);
    }

    /** The verdict with the odds for the show; where the facts do not allow one for another session, with an estimate too. */
    private static Verdict judged(Session session, RunRecord stored, boolean again) {
        Verdict verdict = Judge.judge(session, stored).with(ShowOdds.of(session, stored));
        return again && verdict.outcome() == Verdict.Outcome.NO_VERDICT
                ? verdict.with(Replay.of(session, stored))
                : verdict;
    }

    private static RunRecord load(Path file) {
        try {
            return RecordFile.load(file);
        } catch (RecordException wrong) {
            throw new Problem(Problem.Kind.ASKED_WRONG, wrong.what(), wrong.which(), wrong.why(), wrong.todo());
        }
    }

    /** A report of the same run may be replaced, anything else may not. */
    private static Path beside(Path recordFile, RunRecord record, @Nullable DriveHistory past) {
        Path report = recordFile.toAbsolutePath().normalize().resolveSibling(RunFolder.Kind.RUN.page());
        try {
            if (Files.exists(report)
                    && !Files.readString(report, StandardCharsets.UTF_8).contains(record.id())) {
                throw Problem.askedWrong(
                        Inert.quoted(report) + " is there already and is not of this run",
                        "name a new folder with --out");
            }
        } catch (IOException unreadable) {
            throw Problem.askedWrong(
                    Inert.quoted(report) + " is there already and cannot be read", "name a new folder with --out");
        }
        RunFiles.saveReport(report, record, past);
        return report;
    }
}
