package tracksoak.bench.command.main;

import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Help;
import picocli.CommandLine.IHelpFactory;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import tracksoak.bench.command.session.SessionOptions;

/**
 * Help on one screen: of each option the first sentence, and values of sessions only where those are asked for. All
 * sentences are on the command's manual page, which is made of the same descriptions.
 */
final class ShortHelp extends Help {

    /** Makes it. No lambda: Java 17 may crash where it puts those of picocli's old classes into a class archive. */
    static final class Factory implements IHelpFactory {
        @Override
        public Help create(CommandSpec command, ColorScheme colours) {
            return new ShortHelp(command, colours);
        }
    }

    private ShortHelp(CommandSpec command, ColorScheme colours) {
        super(command, colours);
    }

    @Override
    public String optionListExcludingGroups(
            List<OptionSpec> options,
            Layout layout,
            @Nullable Comparator<OptionSpec> order,
            IParamLabelRenderer labels) {
        return valuesAsked() ? "" : super.optionListExcludingGroups(options, layout, order, labels);
    }

    @Override
    public String optionListGroupSections() {
        return valuesAsked() || !SessionOptions.in(commandSpec()) ? super.optionListGroupSections() : "";
    }

    @Override
    public String parameterList() {
        return valuesAsked() ? "" : super.parameterList();
    }

    private boolean valuesAsked() {
        OptionSpec values = commandSpec().findOption(SessionOptions.HELP);
        return values != null && Boolean.TRUE.equals(values.getValue());
    }

    @Override
    public IOptionRenderer createDefaultOptionRenderer() {
        IOptionRenderer whole = super.createDefaultOptionRenderer();
        return (option, labels, colours) -> whole.render(
                valuesAsked()
                        ? option
                        : OptionSpec.builder(option).description(first(option)).build(),
                labels,
                colours);
    }

    @Override
    public IParameterRenderer createDefaultParameterRenderer() {
        IParameterRenderer whole = super.createDefaultParameterRenderer();
        return (parameter, labels, colours) -> whole.render(
                PositionalParamSpec.builder(parameter)
                        .description(first(parameter))
                        .build(),
                labels,
                colours);
    }

    /** The first sentence of what is said of it. */
    private static String first(ArgSpec arg) {
        String all = String.join(" ", arg.description());
        int end = all.indexOf(". ");
        return end < 0 ? all : all.substring(0, end + 1);
    }
}
