package tracksoak.bench.command.qualify;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.JsonOption;
import tracksoak.bench.command.console.RunSummary;
import tracksoak.bench.command.console.Wrapped;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.KebabCase;
import tracksoak.report.history.Change;
import tracksoak.report.history.DriveHistory;
import tracksoak.report.history.Figure;
import tracksoak.report.history.Past;
import tracksoak.report.history.Slowness;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.stats.Spread;
import tracksoak.report.stats.Trend;

/** What became of a drive, for people and as JSON. */
final class HistoryText {

    private HistoryText() {}

    /** The run, and right under its verdict what became of the drive. */
    static void print(
            RunRecord record,
            DriveHistory history,
            @Nullable Path report,
            @Nullable Path recordFile,
            Console console,
            boolean more) {
        RunSummary.print(
                record,
                report,
                recordFile,
                console,
                more,
                out -> out.print(
                        "Over time (" + Count.inDigits(history.earlier().size(), "earlier run") + ", "
                                + (history.comparable().size() - 1) + " can be compared): ",
                        2,
                        history.sentence()));
        if (more) {
            Wrapped out = new Wrapped(console);
            for (Change change : history.changes()) {
                if (change.now() != null && change.earlier() != null) {
                    out.print("  ", change.sentence());
                }
            }
            history.notes().forEach(note -> out.print("Note: ", note));
        }
        console.out().flush();
    }

    static Map<String, Object> json(
            RunRecord record, DriveHistory history, @Nullable Path report, @Nullable Path recordFile) {
        Map<String, Object> json = JsonOption.document("history/1");
        Verdict verdict = RunSummary.verdict(record);
        Map<String, Object> run = new LinkedHashMap<>();
        run.put("id", record.id());
        run.put("startedAt", record.startedAt());
        run.put(
                "repeats",
                record.plan().requalifies().isEmpty() ? null : record.plan().requalifies());
        run.put("outcome", verdict.outcome().name());
        run.put("sentence", verdict.sentence());
        run.put("report", report == null ? null : report.toString());
        run.put("record", recordFile == null ? null : recordFile.toString());
        json.put("run", run);
        json.put("sentence", history.sentence());
        json.put("ageing", history.ageing());
        json.put("slow", history.slow());
        json.put("slowness", slowness(history.slowness()));
        json.put("level", DriveHistory.LEVEL);
        json.put("changes", history.changes().stream().map(HistoryText::change).toList());
        List<Map<String, Object>> runs = new ArrayList<>();
        history.earlier().forEach(past -> runs.add(past(past)));
        runs.add(past(history.latest()));
        json.put("runs", runs);
        json.put("notes", history.notes());
        return json;
    }

    private static @Nullable Map<String, Object> slowness(@Nullable Slowness slowness) {
        if (slowness == null) {
            return null;
        }
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("figure", slowness.figure());
        json.put("unit", slowness.figure().unit());
        json.put("now", slowness.now());
        json.put("best", slowness.best());
        json.put("bestOn", slowness.bestOn());
        return json;
    }

    private static Map<String, Object> change(Change change) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("figure", change.figure());
        json.put("unit", change.figure().unit());
        json.put("now", change.now());
        json.put("limit", change.limit());
        Spread earlier = change.earlier();
        json.put("earlierRuns", earlier == null ? 0 : earlier.n());
        json.put("earlierLeast", earlier == null ? null : earlier.least());
        json.put("earlierMedian", earlier == null ? null : earlier.median());
        json.put("earlierMost", earlier == null ? null : earlier.most());
        json.put("verdict", change.verdict());
        json.put("chance", change.chance());
        Trend trend = change.trend();
        json.put("slopePerDay", trend == null ? null : trend.slope());
        json.put("slopePerDayLeast", trend == null ? null : finite(trend.leastSlope()));
        json.put("slopePerDayMost", trend == null ? null : finite(trend.mostSlope()));
        json.put("sentence", change.sentence());
        return json;
    }

    private static Map<String, Object> past(Past past) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("id", past.id());
        json.put("startedAt", past.startedAt());
        json.put("plan", past.plan());
        json.put("session", past.session());
        json.put("outcome", past.outcome() == null ? null : past.outcome().name());
        json.put("compared", past.comparable());
        json.put("differences", past.differences());
        Map<String, Object> values = new LinkedHashMap<>();
        for (Figure figure : Figure.values()) {
            Double value = past.values().get(figure);
            if (value != null) {
                values.put(KebabCase.of(figure), value);
            }
        }
        json.put("figures", values);
        return json;
    }

    private static @Nullable Double finite(double value) {
        return Double.isFinite(value) ? value : null;
    }
}
