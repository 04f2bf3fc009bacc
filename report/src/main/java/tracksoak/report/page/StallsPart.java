package tracksoak.report.page;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Grid;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.page.view.Shown;
import tracksoak.report.record.facts.Fault;
import tracksoak.report.record.facts.Overrun;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Stall;

/** The longest stalls and the worst overruns of all takes, one by one. */
final class StallsPart implements Part {

    private static final int MOST_ROWS = 15;

    private record Placed<T>(String phase, T what) {}

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Placed<Stall>> stalls = new ArrayList<>();
        List<Placed<Overrun>> overruns = new ArrayList<>();
        long stallCount = 0;
        boolean anyTake = false;
        boolean ended = true;
        for (int i = 0; i < record.phases().size(); i++) {
            PhaseFacts phase = record.phases().get(i);
            String name = PhaseNames.of(record, i);
            if (phase.kind().paced()) {
                anyTake = true;
                ended &= !neverEnded(phase);
                stallCount += phase.stallCount();
                phase.stalls().forEach(stall -> stalls.add(new Placed<>(name, stall)));
                phase.overruns().forEach(overrun -> overruns.add(new Placed<>(name, overrun)));
            }
        }
        List<Block> blocks = new ArrayList<>();
        String limit = Units.ms(record.session().stallLimitMs());
        if (!anyTake) {
            blocks.add(Prose.of("Nothing was taken or played, so stalls and overruns are not known."));
        } else {
            if (!ended) {
                blocks.add(
                        Prose.of("The drive stopped answering. That pause has no end, so it is not among the stalls."));
            }
            blocks.add(
                    stalls.isEmpty()
                            ? Prose.of((ended ? "No stall" : "No stall before it") + ": never longer than " + limit
                                    + " without a finished chunk while one was ready.")
                            : longest(stalls, stallCount, limit));
            blocks.add(overruns.isEmpty() ? Prose.of("No overrun: no audio was lost.") : worst(overruns));
        }
        double longestMs =
                stalls.stream().mapToDouble(stall -> stall.what().ms()).max().orElse(0);
        return new Section(
                "stalls",
                "Stalls and overruns",
                anyTake
                        ? (ended ? "" : "A pause without an end, ")
                                + (stallCount > 0
                                        ? Count.of(stallCount, "stall")
                                        : ended ? "No stalls" : "no other stalls")
                                + " and "
                                + (overruns.isEmpty() ? "no overrun" : Count.of(overruns.size(), "overrun"))
                        : "Nothing was taken or played",
                longestMs > 0 ? "longest " + Units.ms(longestMs) : "",
                blocks);
    }

    static boolean neverEnded(PhaseFacts phase) {
        Fault fault = phase.fault();
        return fault != null && fault.kind() == Fault.Kind.HUNG;
    }

    private static Grid longest(List<Placed<Stall>> stalls, long count, String limit) {
        List<List<Shown>> rows = stalls.stream()
                .sorted(Comparator.comparingDouble(
                        (Placed<Stall> stall) -> -stall.what().ms()))
                .limit(MOST_ROWS)
                .map(stall -> Grid.row(
                        stall.phase(),
                        Units.seconds(stall.what().atS()),
                        Units.ms(stall.what().ms()),
                        Units.ms(stall.what().hostMs())))
                .toList();
        return new Grid(
                "Longest stalls: a chunk was ready and none got done for more than " + limit,
                List.of("Phase", "Into the phase", "Length", "The computer's share"),
                rows,
                leftOut(count, rows.size(), "stall"));
    }

    private static Grid worst(List<Placed<Overrun>> overruns) {
        List<List<Shown>> rows = overruns.stream()
                .sorted(Comparator.comparingDouble(
                        (Placed<Overrun> overrun) -> -overrun.what().lostMs()))
                .limit(MOST_ROWS)
                .map(overrun -> Grid.row(
                        overrun.phase(),
                        Units.seconds(overrun.what().atS()),
                        Units.ms(overrun.what().lostMs()),
                        Count.number(overrun.what().tracks()),
                        Units.ms(overrun.what().hostMs())))
                .toList();
        return new Grid(
                "Overruns: the buffer was full and audio was lost",
                List.of(
                        "Phase",
                        "Into the phase",
                        "Lost on the worst track",
                        "Tracks hit",
                        "Computer's delay before it"),
                rows,
                leftOut(overruns.size(), rows.size(), "overrun"));
    }

    private static String leftOut(long all, int shown, String noun) {
        return all > shown ? "The " + shown + " worst of " + Count.of(all, noun) + "; the record lists more." : "";
    }
}
