package tracksoak.bench.command.main;

import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import tracksoak.bench.command.bench.BenchCommand;
import tracksoak.bench.command.climb.ClimbCommand;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.StopSignal;
import tracksoak.bench.command.demo.DemoCommand;
import tracksoak.bench.command.drill.DrillCommand;
import tracksoak.bench.command.drives.ClearCommand;
import tracksoak.bench.command.drives.DrivesCommand;
import tracksoak.bench.command.inspect.InspectCommand;
import tracksoak.bench.command.inspect.SignalCommand;
import tracksoak.bench.command.qualify.QualifyCommand;
import tracksoak.bench.command.qualify.ReportCommand;
import tracksoak.bench.command.qualify.RequalifyCommand;
import tracksoak.bench.command.roster.RosterCommand;
import tracksoak.bench.command.roster.RosterExportCommand;
import tracksoak.bench.command.roster.RosterImportCommand;
import tracksoak.bench.command.roster.RosterKeysCommand;
import tracksoak.bench.command.roster.RosterListCommand;
import tracksoak.bench.command.roster.RosterMoveCommand;
import tracksoak.bench.command.roster.RosterNoteCommand;
import tracksoak.bench.command.roster.RosterRescueCommand;
import tracksoak.bench.command.roster.RosterRestoreCommand;
import tracksoak.bench.command.roster.RosterServeCommand;
import tracksoak.bench.command.roster.RosterSettleCommand;
import tracksoak.bench.command.roster.RosterShowCommand;
import tracksoak.bench.command.roster.RosterSyncCommand;
import tracksoak.bench.command.roster.RosterTagCommand;
import tracksoak.bench.command.roster.RosterTokensCommand;
import tracksoak.bench.command.roster.RosterWithdrawCommand;
import tracksoak.bench.command.session.SessionsCheckCommand;
import tracksoak.bench.command.session.SessionsCommand;
import tracksoak.bench.command.session.SessionsShowCommand;
import tracksoak.bench.command.session.SessionsTextCommand;
import tracksoak.bench.command.standin.StandInCommand;
import tracksoak.bench.command.standin.StandInLearnCommand;
import tracksoak.bench.command.standin.StandInProbeCommand;
import tracksoak.bench.command.standin.StandInServeCommand;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.job.Version;

/** Puts the commands together. */
public final class CommandLines {

    private static final List<String> VERSION = List.of("--version");
    private static final Set<String> SPEAKING_OF_OTHERS = Set.of("help", "completion", "man");

    private CommandLines() {}

    /** All commands, talking to {@code console}. */
    public static CommandLine of(Console console, Rooms rooms, StopSignal stop) {
        return of(console, rooms, stop, List.of());
    }

    /**
     * The commands that these words can lead to: looking through the annotations of all of them is a good part of a short command's time.
     *
     * @param words what was typed; where its beginning names a command, those beside it are left out
     */
    public static CommandLine of(Console console, Rooms rooms, StopSignal stop, List<String> words) {
        // else it warns that there are two options for help: the second is the one for the values of sessions
        CommandLine.tracer().setLevel(CommandLine.TraceLevel.OFF);
        Map<String, Supplier<Object>> sessions = new LinkedHashMap<>();
        sessions.put("show", () -> new SessionsShowCommand(console, rooms));
        sessions.put("check", () -> new SessionsCheckCommand(console, rooms));
        sessions.put("text", () -> new SessionsTextCommand(console, rooms));
        List<String> after = words.isEmpty() ? List.of() : words.subList(1, words.size());
        Map<String, Supplier<Object>> all = new LinkedHashMap<>();
        all.put(
                "bench",
                () -> new BenchCommand(
                        console, rooms, stop, () -> of(console, rooms, stop).getCommandSpec()));
        all.put("drives", () -> new DrivesCommand(console, rooms));
        all.put("sessions", () -> with(new SessionsCommand(console, rooms), sessions, after));
        all.put("qualify", () -> new QualifyCommand(console, rooms, stop));
        all.put("drill", () -> new DrillCommand(console, rooms, stop));
        all.put("requalify", () -> new RequalifyCommand(console, rooms, stop));
        all.put("climb", () -> new ClimbCommand(console, rooms, stop));
        all.put("inspect", () -> new InspectCommand(console, rooms, stop));
        all.put("signal", () -> new SignalCommand(console, rooms));
        all.put("roster", () -> with(new RosterCommand(console), roster(console, rooms, stop), after));
        all.put("stand-in", () -> with(new StandInCommand(console), standIn(console, rooms, stop), after));
        all.put("demo", () -> new DemoCommand(console, rooms, stop));
        all.put("report", () -> new ReportCommand(console, rooms));
        all.put("clear", () -> new ClearCommand(console, rooms));
        all.put("completion", () -> new CompletionCommand(console, rooms));
        all.put("man", () -> new ManCommand(console));
        all.put("help", CommandLine.HelpCommand::new);
        CommandLine line = with(new Tracksoak(console), all, words);
        line.getCommandSpec().versionProvider(() -> new String[] {Version.full()});
        line.setOut(console.out());
        line.setErr(console.err());
        line.setColorScheme(CommandLine.Help.defaultColorScheme(console.outMayBeStyled() ? Ansi.ON : Ansi.OFF));
        line.setExecutionStrategy(CommandLines::runOnce);
        line.setExpandAtFiles(false);
        line.setUsageHelpAutoWidth(false);
        line.setUsageHelpWidth(Math.max(80, Math.min(100, console.columns())));
        line.setHelpFactory(new ShortHelp.Factory());
        line.setParameterExceptionHandler(new WrongCommandLine(console));
        line.setExecutionExceptionHandler(new FailedCommand(console));
        return line;
    }

    private static Map<String, Supplier<Object>> standIn(Console console, Rooms rooms, StopSignal stop) {
        Map<String, Supplier<Object>> standIn = new LinkedHashMap<>();
        standIn.put("serve", () -> new StandInServeCommand(console, rooms, stop));
        standIn.put("learn", () -> new StandInLearnCommand(console, rooms));
        standIn.put("probe", () -> new StandInProbeCommand(console, rooms, stop));
        return standIn;
    }

    private static Map<String, Supplier<Object>> roster(Console console, Rooms rooms, StopSignal stop) {
        Map<String, Supplier<Object>> roster = new LinkedHashMap<>();
        roster.put("list", () -> new RosterListCommand(console, rooms));
        roster.put("show", () -> new RosterShowCommand(console, rooms));
        roster.put("tag", () -> new RosterTagCommand(console, rooms));
        roster.put("note", () -> new RosterNoteCommand(console, rooms));
        roster.put("withdraw", () -> new RosterWithdrawCommand(console, rooms));
        roster.put("restore", () -> new RosterRestoreCommand(console, rooms));
        roster.put("settle", () -> new RosterSettleCommand(console, rooms));
        roster.put("keys", () -> new RosterKeysCommand(console, rooms));
        roster.put("tokens", () -> new RosterTokensCommand(console, rooms));
        roster.put("serve", () -> new RosterServeCommand(console, rooms, stop));
        roster.put("sync", () -> new RosterSyncCommand(console, rooms));
        roster.put("export", () -> new RosterExportCommand(console, rooms));
        roster.put("import", () -> new RosterImportCommand(console, rooms));
        roster.put("move", () -> new RosterMoveCommand(console, rooms));
        roster.put("rescue", () -> new RosterRescueCommand(console, rooms));
        return roster;
    }

    /** A command with those below it, or only the one that is named first. */
    private static CommandLine with(Object command, Map<String, Supplier<Object>> below, List<String> words) {
        CommandLine line = new CommandLine(command);
        Supplier<Object> only =
                words.isEmpty() || SPEAKING_OF_OTHERS.contains(words.get(0)) ? null : below.get(words.get(0));
        Collection<Supplier<Object>> needed =
                only != null ? List.of(only) : VERSION.equals(words) ? List.of() : below.values();
        needed.forEach(made -> line.addSubcommand(made.get()));
        // no lambdas here: Java 17 may crash where it puts those of picocli's old classes into a class archive
        return line.registerConverter(Double.class, new Amounts.Factor())
                .registerConverter(Integer.class, new Amounts.Count())
                .registerConverter(int.class, new Amounts.Count())
                .registerConverter(Long.class, new Amounts.LongCount())
                .registerConverter(long.class, new Amounts.LongCount());
    }

    /** Options in a group may be given twice as far as the parser goes; which one counts would be a guess. */
    private static int runOnce(ParseResult parsed) {
        ParseResult last = parsed;
        while (last.hasSubcommand()) {
            last = last.subcommand();
        }
        for (OptionSpec option : last.matchedOptions()) {
            if (!option.isMultiValue() && option.originalStringValues().size() > 1) {
                throw new ParameterException(
                        last.commandSpec().commandLine(), option.longestName() + " is given more than once");
            }
        }
        return new CommandLine.RunLast().execute(parsed);
    }
}
