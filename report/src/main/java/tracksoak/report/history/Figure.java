package tracksoak.report.history;

import java.util.Objects;
import java.util.OptionalDouble;
import java.util.function.DoubleFunction;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.ReadBackFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Stall;
import tracksoak.report.verdict.Judge;

/**
 * A figure of a run that is compared from run to run. Delay of the computer itself is taken off where the record says how
 * much it was; where the computer decided the criterion that goes by the figure, the figure is left out.
 */
@SuppressWarnings("ImmutableEnumChecker") // its functions hold no state
public enum Figure {
    FLOOR(
            "floor",
            Unit.RATE,
            CriterionId.RATE_MARGIN,
            true,
            run -> fills(run).mapToDouble(FillFacts::floorBytesPerSecond).min(),
            session -> session.margins().rate() * session.bytesPerSecond()),
    PEAK_BACKLOG(
            "peak backlog",
            Unit.TIME,
            CriterionId.BUFFER_MARGIN,
            false,
            run -> takes(run)
                    .mapToDouble(take -> Math.max(0, take.peakBacklogMs() - take.peakBacklogHostMs()))
                    .max(),
            session -> session.bufferS() * 1000 / session.margins().buffer()),
    LONGEST_STALL(
            "longest stall",
            Unit.TIME,
            CriterionId.LONGEST_STALL,
            false,
            run -> takes(run).mapToDouble(Figure::longestStall).max(),
            session -> session.margins().longestStallMs()),
    CLOSE_TIME(
            "close time",
            Unit.TIME,
            CriterionId.CLOSE_TIME,
            false,
            run -> run.each(PhaseFacts::close).mapToDouble(CloseFacts::totalMs).max(),
            session -> session.margins().closeMs()),
    CLIFF(
            "cliff",
            Unit.SIZE,
            CriterionId.RATE_MARGIN,
            true,
            run -> fills(run)
                    .map(FillFacts::cliffAtBytes)
                    .filter(Objects::nonNull)
                    .mapToDouble(bytes -> bytes)
                    .min()),
    STALLS("stalls per hour", Unit.PER_HOUR, CriterionId.LONGEST_STALL, false, run -> {
        double hours = takes(run).mapToDouble(PhaseFacts::seconds).sum() / 3600;
        return hours <= 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        takes(run).mapToDouble(PhaseFacts::stallCount).sum() / hours);
    }),
    SERVICE_TIME(
            "mean service time",
            Unit.TIME,
            CriterionId.RATE_MARGIN,
            false,
            // its mean holds the computer's own delays too, and nobody can take them off afterwards
            run -> takes(run)
                    .filter(take -> !Judge.spoilt(take))
                    .map(PhaseFacts::service)
                    .filter(Objects::nonNull)
                    .mapToDouble(service -> service.meanUs() / 1000)
                    .max()),
    BAD_BLOCKS("number of bad blocks", Unit.BLOCKS, CriterionId.INTACT, false, run -> {
        double[] bad =
                run.each(PhaseFacts::readBack).mapToDouble(ReadBackFacts::bad).toArray();
        return bad.length == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(DoubleStream.of(bad).sum());
    }),
    CAPACITY("capacity", Unit.SIZE, null, true, run -> {
        Long size = run.drive().sizeBytes();
        return size == null ? OptionalDouble.empty() : OptionalDouble.of(size);
    });

    /** How it is written. */
    private enum Unit {
        RATE("B/s", Units::rate),
        TIME("ms", Units::ms),
        SIZE("B", bytes -> Units.bytes(Math.round(bytes))),
        PER_HOUR("1/h", value -> round(value) + " per hour"),
        BLOCKS("blocks of 4 KiB", value -> Long.toString(Math.round(value)));

        private final String word;
        private final DoubleFunction<String> show;

        Unit(String word, DoubleFunction<String> show) {
            this.word = word;
            this.show = show;
        }
    }

    private final String words;
    private final Unit unit;
    private final @Nullable CriterionId criterion;
    private final boolean lessIsWorse;
    private final Function<RunRecord, OptionalDouble> in;
    private final ToDoubleFunction<Session> limit;

    Figure(
            String words,
            Unit unit,
            @Nullable CriterionId criterion,
            boolean lessIsWorse,
            Function<RunRecord, OptionalDouble> in,
            ToDoubleFunction<Session> limit) {
        this.words = words;
        this.unit = unit;
        this.criterion = criterion;
        this.lessIsWorse = lessIsWorse;
        this.in = in;
        this.limit = limit;
    }

    /** One of which no session asks anything. */
    Figure(
            String words,
            Unit unit,
            @Nullable CriterionId criterion,
            boolean lessIsWorse,
            Function<RunRecord, OptionalDouble> in) {
        this(words, unit, criterion, lessIsWorse, in, session -> Double.NaN);
    }

    /** What it is called: {@code peak backlog}. */
    public String words() {
        return words;
    }

    /** Whether it gets worse by getting smaller. */
    public boolean lessIsWorse() {
        return lessIsWorse;
    }

    /** Whether a trend is looked for in it: the figures that age, and one per question. */
    public boolean ages() {
        return switch (this) {
            case FLOOR, PEAK_BACKLOG, LONGEST_STALL, CLOSE_TIME, CLIFF -> true;
            case STALLS, SERVICE_TIME, BAD_BLOCKS, CAPACITY -> false;
        };
    }

    /** The figure of a run, in its own unit; null where the run does not have it or the computer made it. */
    public @Nullable Double of(RunRecord run) {
        var verdict = run.verdict();
        CriterionId decides = criterion;
        boolean computers = verdict != null
                && decides != null
                && verdict.criteria().stream().filter(each -> each.is(decides)).anyMatch(Criterion::decidedByHost);
        OptionalDouble value = computers ? OptionalDouble.empty() : in.apply(run);
        return value.isPresent() ? value.getAsDouble() : null;
    }

    /** Where it meets what a session asks, in its own unit; null where a session asks nothing of it. */
    public @Nullable Double limit(Session session) {
        double asked = limit.applyAsDouble(session);
        return Double.isFinite(asked) ? asked : null;
    }

    /** A value with its unit. */
    public String show(double value) {
        return unit.show.apply(value);
    }

    /** The unit of the plain number: {@code B/s}. */
    public String unit() {
        return unit.word;
    }

    private static String round(double value) {
        return value >= 10 || value == Math.rint(value)
                ? Long.toString(Math.round(value))
                : Double.toString(Math.round(value * 10) / 10.0);
    }

    private static double longestStall(PhaseFacts take) {
        return take.stalls().stream()
                .mapToDouble((Stall stall) -> Math.max(0, stall.ms() - stall.hostMs()))
                .max()
                .orElse(0);
    }

    private static Stream<PhaseFacts> takes(RunRecord run) {
        return run.phasesOf(PhaseKind.TAKE).filter(PhaseFacts::complete);
    }

    private static Stream<FillFacts> fills(RunRecord run) {
        return run.phasesOf(PhaseKind.FILL)
                .filter(PhaseFacts::complete)
                .map(PhaseFacts::fill)
                .filter(Objects::nonNull);
    }
}
