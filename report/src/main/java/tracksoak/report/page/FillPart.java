package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.chart.Thinning;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.ChartView;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Series;

/** Write rate over bytes written in the fill, with floor, demand and cliff. */
final class FillPart implements Part {

    private static final String ID = "fill";
    private static final int TABLE_ROWS = 40;
    private static final double BYTES_PER_KIB = 1024;

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            if (phase.kind() == PhaseKind.FILL || phase.kind() == PhaseKind.COPY) {
                add(record, phase, "chart-fill-" + i, blocks, charts);
            }
        }
        if (blocks.isEmpty()) {
            blocks.add(Prose.of(
                    record.plan().fillCapS() > 0
                            ? "The run ended before the fill, so floor and cliff are not known."
                            : "The plan " + record.plan().name()
                                    + " has no fill, so floor and cliff were not measured."));
        }
        return new Section(ID, title(record), gist(record), figure(record), blocks);
    }

    private static String title(RunRecord record) {
        boolean copies = record.phasesOf(PhaseKind.COPY).findAny().isPresent();
        return copies && record.phasesOf(PhaseKind.FILL).findAny().isPresent()
                ? "Write rate in the fill and the copy"
                : copies ? "Write rate in the copy" : "Write rate in the fill";
    }

    private static String gist(RunRecord record) {
        return record.each(PhaseFacts::fill)
                .findFirst()
                .map(fill -> {
                    Long cliff = fill.cliffAtBytes();
                    return "The slowest " + Units.seconds(fill.floorWindowS()) + ", against a demand of "
                            + Units.rate(record.session().bytesPerSecond())
                            + (cliff == null ? "" : "; a cliff after " + Units.bytes(cliff));
                })
                .orElse("Not measured");
    }

    private static String figure(RunRecord record) {
        return record.each(PhaseFacts::fill)
                .findFirst()
                .map(fill -> Units.rate(fill.floorBytesPerSecond()))
                .orElse("");
    }

    private static void add(RunRecord record, PhaseFacts phase, String id, List<Block> blocks, List<ChartData> charts) {
        FillFacts fill = phase.fill();
        Series series = phase.series();
        if (series == null || series.length() < 2) {
            blocks.add(Prose.of("The fill ended before there was a curve to draw."));
        } else {
            double[] rate = series.kib().stream()
                    .limit(wholeSeconds(phase, series))
                    .mapToDouble(kib -> kib * BYTES_PER_KIB)
                    .toArray();
            double[] written = new double[rate.length];
            double sum = 0;
            for (int i = 0; i < rate.length; i++) {
                sum += rate[i];
                written[i] = sum;
            }
            charts.add(data(id, record, fill, rate, written));
            blocks.add(new ChartView(
                    id,
                    name(phase),
                    "Line chart: write rate over bytes written in the "
                            + name(phase).toLowerCase(Locale.ROOT)
                            + ", with the session's demand, the floor and the cliff",
                    Shown.whole(summary(record, fill)),
                    key(fill),
                    table(rate, written)));
        }
        if (fill != null) {
            blocks.add(facts(phase, fill));
        }
    }

    /** A second the fill ended in would look like a fall of the rate. */
    private static long wholeSeconds(PhaseFacts phase, Series series) {
        return Math.max(1, Math.min(series.length(), (long) phase.seconds()));
    }

    private static String name(PhaseFacts phase) {
        return phase.kind() == PhaseKind.COPY ? "Copy" : "Fill";
    }

    private static String summary(RunRecord record, @Nullable FillFacts fill) {
        String demand = "the session needs " + Units.rate(record.session().bytesPerSecond());
        if (fill == null) {
            return "The fill did not come far enough to find a floor; " + demand + ".";
        }
        Long cliffAt = fill.cliffAtBytes();
        Double before = fill.rateBeforeBytesPerSecond();
        Double after = fill.rateAfterBytesPerSecond();
        String cliff = "no cliff was seen";
        if (cliffAt != null) {
            cliff = "a cliff after " + Units.bytes(cliffAt)
                    + (before != null && after != null
                            ? ", from " + Units.rate(before) + " down to " + Units.rate(after)
                            : "");
        }
        return "Floor " + Units.rate(fill.floorBytesPerSecond()) + "; " + demand + "; " + cliff + ".";
    }

    private static List<ChartView.Key> key(@Nullable FillFacts fill) {
        List<ChartView.Key> key = new ArrayList<>();
        key.add(new ChartView.Key("rate", false, "write rate in each second"));
        key.add(new ChartView.Key("demand", false, "demand of the session"));
        if (fill != null) {
            key.add(new ChartView.Key("floor", false, "floor"));
            if (fill.cliffAtBytes() != null) {
                key.add(new ChartView.Key("cliff", false, "cliff"));
            }
        }
        return key;
    }

    private static ChartData data(
            String id, RunRecord record, @Nullable FillFacts fill, double[] rate, double[] written) {
        List<Double> x = new ArrayList<>();
        List<Double> y = new ArrayList<>();
        for (int i : Thinning.extremes(rate, ChartData.MOST_POINTS)) {
            x.add(Math.round(written[i] / 1e4) / 1e5);
            y.add(Math.round(rate[i] / 1e3) / 1e3);
        }
        List<ChartData.Level> levels = new ArrayList<>();
        long demand = record.session().bytesPerSecond();
        levels.add(new ChartData.Level("demand", "demand " + Units.rate(demand), (double) demand / 1e6));
        List<ChartData.Upright> uprights = new ArrayList<>();
        if (fill != null) {
            double floor = fill.floorBytesPerSecond();
            levels.add(new ChartData.Level("floor", "floor " + Units.rate(floor), floor / 1e6));
            Long cliff = fill.cliffAtBytes();
            if (cliff != null) {
                uprights.add(new ChartData.Upright("cliff", "cliff at " + Units.bytes(cliff), (double) cliff / 1e9));
            }
        }
        return new ChartData(
                id,
                "bytes",
                "MB/s",
                false,
                x,
                List.of(new ChartData.Line("rate", "write rate", y)),
                levels,
                uprights,
                List.of());
    }

    private static Facts facts(PhaseFacts phase, FillFacts fill) {
        return Facts.about("What the " + name(phase).toLowerCase(Locale.ROOT) + " found")
                .row("Ended", ended(fill.ended()))
                .row(
                        "Steady state",
                        fill.steady()
                                ? "reached: five rounds of " + Units.seconds(fill.roundS()) + " in a row were alike"
                                : "not reached")
                .row(
                        "Floor",
                        Units.rate(fill.floorBytesPerSecond()) + ", the lowest mean over any "
                                + Units.seconds(fill.floorWindowS()))
                .row("Written", Units.bytes(phase.bytes()) + " of " + Units.bytes(fill.room()) + " that were free")
                .build();
    }

    private static String ended(FillFacts.Ended ended) {
        return switch (ended) {
            case STEADY -> "steady, and enough written for the session";
            case ENOUGH -> "enough written for the session, without becoming steady";
            case BELOW_NEED -> "steady below what the session needs";
            case COPIED -> "all of the show is copied";
            case FULL -> "all the room there was is written";
            case CAP -> "the time allowed ran out";
            case CUT_SHORT -> "cut short";
        };
    }

    private static Grid table(double[] rate, double[] written) {
        int rows = Math.min(TABLE_ROWS, rate.length);
        List<List<Shown>> cells = new ArrayList<>();
        for (int row = 0; row < rows; row++) {
            int from = Thinning.start(row, rows, rate);
            int to = Thinning.start(row + 1, rows, rate);
            cells.add(Grid.row(
                    "up to " + Units.bytes((long) written[to - 1]),
                    Units.rate(Thinning.lowest(rate, from, to)),
                    Units.rate(Thinning.highest(rate, from, to))));
        }
        return new Grid(
                "Lowest and highest write rate of any second in each span",
                List.of("Bytes written", "Lowest rate", "Highest rate"),
                cells);
    }
}
