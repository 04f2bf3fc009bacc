package tracksoak.report.history;

import java.util.Objects;
import java.util.OptionalDouble;
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
public enum Figure {
    FLOOR("floor", CriterionId.RATE_MARGIN, true) {
        @Override
        OptionalDouble in(RunRecord run) {
            return fills(run).mapToDouble(FillFacts::floorBytesPerSecond).min();
        }

        @Override
        double limitOf(Session session) {
            return session.margins().rate() * session.bytesPerSecond();
        }
    },
    PEAK_BACKLOG("peak backlog", CriterionId.BUFFER_MARGIN, false) {
        @Override
        OptionalDouble in(RunRecord run) {
            return takes(run)
                    .mapToDouble(take -> Math.max(0, take.peakBacklogMs() - take.peakBacklogHostMs()))
                    .max();
        }

        @Override
        double limitOf(Session session) {
            return session.bufferS() * 1000 / session.margins().buffer();
        }
    },
    LONGEST_STALL("longest stall", CriterionId.LONGEST_STALL, false) {
        @Override
        OptionalDouble in(RunRecord run) {
            return takes(run).mapToDouble(Figure::longestStall).max();
        }

        @Override
        double limitOf(Session session) {
            return session.margins().longestStallMs();
        }
    },
    CLOSE_TIME("close time", CriterionId.CLOSE_TIME, false) {
        @Override
        OptionalDouble in(RunRecord run) {
            return run.each(PhaseFacts::close).mapToDouble(CloseFacts::totalMs).max();
        }

        @Override
        double limitOf(Session session) {
            return session.margins().closeMs();
        }
    },
    CLIFF("cliff", CriterionId.RATE_MARGIN, true) {
        @Override
        OptionalDouble in(RunRecord run) {
            return fills(run)
                    .map(FillFacts::cliffAtBytes)
                    .filter(Objects::nonNull)
                    .mapToDouble(bytes -> bytes)
                    .min();
        }
    },
    STALLS("stalls per hour", CriterionId.LONGEST_STALL, false) {
        @Override
        OptionalDouble in(RunRecord run) {
            double hours = takes(run).mapToDouble(PhaseFacts::seconds).sum() / 3600;
            return hours <= 0
                    ? OptionalDouble.empty()
                    : OptionalDouble.of(
                            takes(run).mapToDouble(PhaseFacts::stallCount).sum() / hours);
        }
    },
    SERVICE_TIME("mean service time", CriterionId.RATE_MARGIN, false) {
        @Override
        OptionalDouble in(RunRecord run) {
            // its mean holds the computer's own delays too, and nobody can take them off afterwards
            return takes(run)
                    .filter(take -> !Judge.spoilt(take))
                    .map(PhaseFacts::service)
                    .filter(Objects::nonNull)
                    .mapToDouble(service -> service.meanUs() / 1000)
                    .max();
        }
    },
    BAD_BLOCKS("number of bad blocks", CriterionId.INTACT, false) {
        @Override
        OptionalDouble in(RunRecord run) {
            double[] bad = run.each(PhaseFacts::readBack)
                    .mapToDouble(ReadBackFacts::bad)
                    .toArray();
            return bad.length == 0
                    ? OptionalDouble.empty()
                    : OptionalDouble.of(DoubleStream.of(bad).sum());
        }
    },
    CAPACITY("capacity", null, true) {
        @Override
        OptionalDouble in(RunRecord run) {
            Long size = run.drive().sizeBytes();
            return size == null ? OptionalDouble.empty() : OptionalDouble.of(size);
        }
    };

    private final String words;
    private final @Nullable CriterionId criterion;
    private final boolean lessIsWorse;

    Figure(String words, @Nullable CriterionId criterion, boolean lessIsWorse) {
        this.words = words;
        this.criterion = criterion;
        this.lessIsWorse = lessIsWorse;
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
        OptionalDouble value = computers ? OptionalDouble.empty() : in(run);
        return value.isPresent() ? value.getAsDouble() : null;
    }

    /** Where it meets what a session asks, in its own unit; null where a session asks nothing of it. */
    public @Nullable Double limit(Session session) {
        double limit = limitOf(session);
        return Double.isFinite(limit) ? limit : null;
    }

    /** A value with its unit. */
    public String show(double value) {
        return switch (this) {
            case FLOOR -> Units.rate(value);
            case PEAK_BACKLOG, LONGEST_STALL, CLOSE_TIME, SERVICE_TIME -> Units.ms(value);
            case CLIFF, CAPACITY -> Units.bytes(Math.round(value));
            case STALLS -> round(value) + " per hour";
            case BAD_BLOCKS -> Long.toString(Math.round(value));
        };
    }

    /** The unit of the plain number: {@code B/s}. */
    public String unit() {
        return switch (this) {
            case FLOOR -> "B/s";
            case PEAK_BACKLOG, LONGEST_STALL, CLOSE_TIME, SERVICE_TIME -> "ms";
            case CLIFF, CAPACITY -> "B";
            case STALLS -> "1/h";
            case BAD_BLOCKS -> "blocks of 4 KiB";
        };
    }

    abstract OptionalDouble in(RunRecord run);

    double limitOf(Session session) {
        return Double.NaN;
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
