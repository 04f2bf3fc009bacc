package tracksoak.report.page;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.chart.ChartData;
import tracksoak.report.page.view.Bars;
import tracksoak.report.page.view.Block;
import tracksoak.report.page.view.Prose;
import tracksoak.report.page.view.Section;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** From "stop" to "safe to unplug", part by part. */
final class ClosePart implements Part {

    @Override
    public Section of(RunRecord record, List<ChartData> charts) {
        List<Block> blocks = new ArrayList<>();
        long closes = record.each(PhaseFacts::close).count();
        for (int i = 0; i < record.phases().size(); i++) {
            CloseFacts close = record.phases().get(i).close();
            if (close != null) {
                blocks.add(
                        Prose.of((closes > 1 ? closed(record, i) + ": from stop" : "From stop") + " to safe to unplug: "
                                + Units.ms(close.totalMs()) + " for "
                                + Count.of(close.files(), "file") + ". The session allows "
                                + Units.ms(record.session().margins().closeMs()) + "."));
                blocks.add(bars(close));
            }
        }
        double longestMs = record.each(PhaseFacts::close)
                .mapToDouble(CloseFacts::totalMs)
                .max()
                .orElse(0);
        if (blocks.isEmpty()) {
            blocks.add(
                    Prose.of("The run did not come to a close, so the time until it is safe to unplug is not known."));
        }
        return new Section(
                "close",
                "Close",
                closes > 0 ? "From stop to safe to unplug" : "The run did not come to a close",
                closes > 0 ? Units.ms(longestMs) : "",
                blocks);
    }

    /** The phase before the close. */
    private static String closed(RunRecord record, int close) {
        int i = close;
        while (i > 0 && record.phases().get(i).kind() == PhaseKind.CLOSE) {
            i--;
        }
        return PhaseNames.of(record, i);
    }

    private static Bars bars(CloseFacts close) {
        return new Bars(
                "What closing spent its time on",
                "Step",
                "Time",
                List.of(
                        bar("Writing what the buffer still held", close.drainMs(), close),
                        bar("Rewriting headers", close.headersMs(), close),
                        bar("Flushing files", close.flushMs(), close),
                        bar("Closing files", close.closeMs(), close),
                        bar("Flushing the directory", close.directoryMs(), close)),
                "In all",
                Units.ms(close.totalMs()));
    }

    private static Bars.Bar bar(String label, double ms, CloseFacts close) {
        double share = close.totalMs() > 0 ? ms / close.totalMs() : 0;
        return new Bars.Bar(label, Units.ms(ms), (int) Math.max(0, Math.min(100, Math.round(share * 100))));
    }
}
