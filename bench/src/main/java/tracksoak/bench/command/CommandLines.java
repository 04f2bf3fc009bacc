package tracksoak.bench.command;

import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;

/** Puts the commands together. */
final class CommandLines {

    private CommandLines() {}

    /** All commands, talking to {@code console}. */
    static CommandLine of(Console console, Rooms rooms, StopSignal stop) {
        CommandLine sessions = new CommandLine(new SessionsCommand(console, rooms))
                .addSubcommand(new SessionsShowCommand(console, rooms))
                .addSubcommand(new SessionsCheckCommand(console))
                .addSubcommand(new SessionsTextCommand(console, rooms));
        CommandLine line = new CommandLine(new Tracksoak(console))
                .addSubcommand(new DrivesCommand(console, rooms))
                .addSubcommand(sessions)
                .addSubcommand(new QualifyCommand(console, rooms, stop))
                .addSubcommand(new DemoCommand(console, rooms, stop))
                .addSubcommand(new ReportCommand(console, rooms))
                .addSubcommand(new ClearCommand(console, rooms))
                .addSubcommand(new CompletionCommand(console))
                .addSubcommand(new CommandLine.HelpCommand());
        line.getCommandSpec().versionProvider(() -> new String[] {Version.full()});
        line.setOut(console.out());
        line.setErr(console.err());
        line.setColorScheme(CommandLine.Help.defaultColorScheme(console.outMayBeStyled() ? Ansi.ON : Ansi.OFF));
        line.setExpandAtFiles(false);
        line.setUsageHelpAutoWidth(false);
        line.setUsageHelpWidth(100);
        line.setParameterExceptionHandler(new WrongCommandLine(console));
        line.setExecutionExceptionHandler(new FailedCommand(console));
        return line;
    }
}
