package tracksoak.bench.command.main;

import java.util.Comparator;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.UsageMessageSpec;

/** A command's manual page in the language of man(7), made of what the command says of itself. Stateless. */
final class ManPage {

    private final StringBuilder page = new StringBuilder();

    private ManPage() {}

    /** The page's name without its section: {@code tracksoak-roster-list}. */
    static String name(CommandSpec command) {
        return command.qualifiedName("-");
    }

    static String of(CommandSpec command) {
        ManPage man = new ManPage();
        UsageMessageSpec usage = command.usageMessage();
        man.line(".TH \"" + name(command).toUpperCase(java.util.Locale.ROOT)
                + "\" 1 \"\" \"Tracksoak\" \"Tracksoak manual\"");
        man.section("NAME");
        man.text(name(command) + " - " + String.join(" ", usage.header()));
        man.section("SYNOPSIS");
        String synopsis = new Help(command, Help.defaultColorScheme(Ansi.OFF)).synopsis(0);
        man.line(".nf");
        synopsis.strip().lines().map(String::strip).forEach(man::text);
        man.line(".fi");
        if (usage.description().length > 0) {
            man.section("DESCRIPTION");
            for (String paragraph : usage.description()) {
                man.line(".PP");
                man.text(said(paragraph));
            }
        }
        man.arguments(command);
        man.commands(command);
        if (usage.footer().length > 0) {
            man.section("EXAMPLES");
            man.line(".nf");
            List.of(usage.footer()).forEach(line -> man.text(said(line)));
            man.line(".fi");
        }
        man.section("EXIT STATUS");
        command.root().usageMessage().exitCodeList().forEach((code, meaning) -> man.item(code.strip(), said(meaning)));
        return man.page.toString();
    }

    private void arguments(CommandSpec command) {
        section("OPTIONS");
        command.positionalParameters().stream()
                .filter(parameter -> !parameter.hidden())
                .forEach(parameter -> item(parameter.paramLabel(), said(parameter)));
        command.options().stream()
                .filter(option -> !option.hidden() && option.group() == null)
                .sorted(Comparator.comparingInt(OptionSpec::order))
                .forEach(this::option);
        for (ArgGroupSpec group : command.argGroups()) {
            String heading =
                    group.heading() == null ? "" : said(group.heading()).strip();
            if (!heading.isEmpty()) {
                line(".SS \"" + heading.replace("\"", "") + "\"");
            }
            group.allOptionsNested().stream().filter(option -> !option.hidden()).forEach(this::option);
        }
    }

    private void option(OptionSpec option) {
        String names = String.join(", ", option.names());
        item(option.arity().max() == 0 ? names : names + "=" + option.paramLabel(), said(option));
    }

    private void commands(CommandSpec command) {
        if (command.subcommands().isEmpty()) {
            return;
        }
        section("COMMANDS");
        for (CommandLine sub : command.subcommands().values()) {
            CommandSpec below = sub.getCommandSpec();
            item(below.name(), String.join(" ", below.usageMessage().header()) + " See " + name(below) + "(1).");
        }
    }

    private static String said(ArgSpec arg) {
        return said(String.join(" ", arg.description()));
    }

    /** With the line ends and signs that picocli writes as a format has them. */
    private static String said(String format) {
        return format.replace("%n", "\n").replace("%%", "%");
    }

    private void section(String title) {
        line(".SH " + title);
    }

    private void item(String what, String meaning) {
        line(".TP");
        line("\\fB" + escaped(what) + "\\fR");
        text(meaning);
    }

    private void text(String text) {
        text.lines().forEach(each -> line(escaped(each)));
    }

    private void line(String text) {
        page.append(text).append('\n');
    }

    /** A line that man takes for text, whatever it begins with. */
    private static String escaped(String text) {
        String plain = text.replace("\\", "\\e").replace("-", "\\-");
        return plain.startsWith(".") || plain.startsWith("'") ? "\\&" + plain : plain;
    }
}
