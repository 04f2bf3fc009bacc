package tracksoak.bench.command.session;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Command;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Spec;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Choices;
import tracksoak.bench.command.console.HelpOption;
import tracksoak.profiles.Arrival;
import tracksoak.profiles.FileLayout;
import tracksoak.profiles.Key;
import tracksoak.profiles.SampleFormat;
import tracksoak.profiles.SessionOverrides;
import tracksoak.profiles.base.Problem;

/** Values for one run instead of the session's: an option for every key that has one. */
@Command
public final class SessionOptions {

    /** The order in which help lists them: what is recorded before how it is written. */
    private static final List<Key> FIRST = List.of(Key.COUNT, Key.SAMPLE_RATE, Key.WORD_LENGTH);

    /** Shows them; the help of a command leaves them out. */
    public static final String HELP = "--help-values";

    private final String heading;
    private final Map<Key, OptionSpec> options = new EnumMap<>(Key.class);

    /** @param heading what stands above them in the help, without a colon */
    public SessionOptions(String heading) {
        this.heading = heading;
    }

    /** Adds them to a command. */
    @Spec(Spec.Target.MIXEE)
    public void addTo(CommandSpec command) {
        ArgGroupSpec.Builder group = ArgGroupSpec.builder().validate(false).heading("%n" + heading + ":%n");
        FIRST.forEach(key -> add(key, group));
        for (Key key : Key.values()) {
            if (!FIRST.contains(key)) {
                add(key, group);
            }
        }
        command.addArgGroup(group.build());
        command.addOption(OptionSpec.builder(HELP)
                .type(boolean.class)
                .usageHelp(true)
                .order(HelpOption.LAST)
                .description("Show the rest: lengths, limits and values instead of the session's.")
                .build());
    }

    private void add(Key key, ArgGroupSpec.Builder group) {
        key.option().ifPresent(said -> {
            OptionSpec option = option(key, said);
            options.put(key, option);
            group.addArg(option);
        });
    }

    /** Whether a command has them. */
    public static boolean in(CommandSpec command) {
        return command.findOption(HELP) != null;
    }

    /** The values given. */
    public SessionOverrides overrides() {
        SessionOverrides given = SessionOverrides.none();
        for (Map.Entry<Key, OptionSpec> each : options.entrySet()) {
            Object value = each.getValue().getValue();
            if (value != null) {
                given = given.with(each.getKey(), inUnitOf(each.getKey(), each.getValue(), value));
            }
        }
        return given;
    }

    private static Object inUnitOf(Key key, OptionSpec option, Object value) {
        return switch (key.form().kind()) {
            case LENGTH -> whole((Double) value, 1, option.longestName(), "s");
            case MILLISECONDS -> whole((Double) value, 1000, option.longestName(), "ms");
            default -> value;
        };
    }

    private static long whole(double seconds, int perSecond, String option, String unit) {
        double amount = seconds * perSecond;
        if (Math.abs(amount - Math.rint(amount)) > 1e-6 || amount > 1e15) {
            throw Problem.askedWrong(option + " takes whole " + unit + ", not " + amount + " " + unit, "round it");
        }
        return Math.round(amount);
    }

    private static OptionSpec option(Key key, Key.Option said) {
        OptionSpec.Builder option = OptionSpec.builder(said.name())
                .paramLabel(said.label())
                .description(said.description())
                .arity("1");
        return switch (key.form().kind()) {
            case LENGTH, SECONDS, MILLISECONDS ->
                option.type(Double.class).converters(new Amounts.Duration()).build();
            case SIZE -> option.type(Long.class).converters(new Amounts.Size()).build();
            case HERTZ ->
                option.type(Integer.class).converters(new Amounts.SampleRate()).build();
            case WHOLE ->
                option.type(Integer.class).converters(new Amounts.Count()).build();
            case FACTOR ->
                option.type(Double.class).converters(new Amounts.Factor()).build();
            case TEXTS ->
                option.type(List.class)
                        .auxiliaryTypes(String.class)
                        .splitRegex(",")
                        .build();
            case WORD -> {
                Choices.Choice<?> words = words(key.form().type());
                yield option.type(key.form().type())
                        .converters((ITypeConverter<?>) words)
                        .completionCandidates(words)
                        .build();
            }
            case TEXT, FLAG, TABLE -> option.type(String.class).build();
        };
    }

    private static Choices.Choice<?> words(Class<?> type) {
        if (type == FileLayout.class) {
            return new Choices.Layout();
        }
        if (type == Arrival.class) {
            return new Choices.Arrivals();
        }
        if (type == SampleFormat.class) {
            return new Choices.WordLength();
        }
        throw new IllegalStateException("no words for " + type);
    }
}
