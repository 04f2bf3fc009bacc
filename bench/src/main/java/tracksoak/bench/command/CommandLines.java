package tracksoak.bench.command;

import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;

/** Puts the commands together. */
final class CommandLines {

    private CommandLines() {}

    /** All commands, talking to {@code console}. */
    static CommandLine of(Console console, Rooms rooms, StopSignal stop) {
        CommandLine sessions = new CommandLine(new SessionsCommand(console, rooms))
                .addSubcommand(new SessionsShowCommand(console, rooms))
                .addSubcommand(new SessionsCheckCommand(console))
                .addSubcommand(new SessionsTextCommand(console, rooms));
        CommandLine roster = new CommandLine(new RosterCommand(console))
                .addSubcommand(new RosterListCommand(console, rooms))
                .addSubcommand(new RosterShowCommand(console, rooms))
                .addSubcommand(new RosterTagCommand(console, rooms))
                .addSubcommand(new RosterNoteCommand(console, rooms))
                .addSubcommand(new RosterWithdrawCommand(console, rooms))
                .addSubcommand(new RosterRestoreCommand(console, rooms))
                .addSubcommand(new RosterSettleCommand(console, rooms))
                .addSubcommand(new RosterKeysCommand(console, rooms))
                .addSubcommand(new RosterTokensCommand(console, rooms))
                .addSubcommand(new RosterServeCommand(console, rooms, stop))
                .addSubcommand(new RosterSyncCommand(console, rooms))
                .addSubcommand(new RosterExportCommand(console, rooms))
                .addSubcommand(new RosterImportCommand(console, rooms))
                .addSubcommand(new RosterMoveCommand(console, rooms))
                .addSubcommand(new RosterRescueCommand(console, rooms));
        CommandLine line = new CommandLine(new Tracksoak(console))
                .addSubcommand(new DrivesCommand(console, rooms))
                .addSubcommand(sessions)
                .addSubcommand(new QualifyCommand(console, rooms, stop))
                .addSubcommand(new DrillCommand(console, rooms, stop))
                .addSubcommand(new RequalifyCommand(console, rooms, stop))
                .addSubcommand(new ClimbCommand(console, rooms, stop))
                .addSubcommand(roster)
                .addSubcommand(new DemoCommand(console, rooms, stop))
                .addSubcommand(new ReportCommand(console, rooms))
                .addSubcommand(new ClearCommand(console, rooms))
                .addSubcommand(new CompletionCommand(console))
                .addSubcommand(new CommandLine.HelpCommand());
        line.getCommandSpec().versionProvider(() -> new String[] {Version.full()});
        line.setOut(console.out());
        line.setErr(console.err());
        line.setColorScheme(CommandLine.Help.defaultColorScheme(console.outMayBeStyled() ? Ansi.ON : Ansi.OFF));
        line.setExecutionStrategy(CommandLines::runOnce);
        line.setExpandAtFiles(false);
        line.setUsageHelpAutoWidth(false);
        line.setUsageHelpWidth(100);
        line.setParameterExceptionHandler(new WrongCommandLine(console));
        line.setExecutionExceptionHandler(new FailedCommand(console));
        return line;
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
                        last.commandSpec().commandLine(),
                        "option '" + option.longestName() + "' should be specified only once");
            }
        }
        return new CommandLine.RunLast().execute(parsed);
    }
}
