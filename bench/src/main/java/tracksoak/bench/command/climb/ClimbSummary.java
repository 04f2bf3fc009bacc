package tracksoak.bench.command.climb;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.Exit;
import tracksoak.bench.command.console.Table;
import tracksoak.bench.command.console.Wrapped;
import tracksoak.bench.job.RunFolder;
import tracksoak.profiles.base.Units;
import tracksoak.report.page.ClimbWords;
import tracksoak.report.record.facts.ClimbRecord;
import tracksoak.report.record.facts.ClimbResult;
import tracksoak.report.record.facts.ClimbStep;

/** What a climb came to, in a few plain lines. */
final class ClimbSummary {

    private ClimbSummary() {}

    private static ClimbResult result(ClimbRecord record) {
        ClimbResult result = record.result();
        if (result == null) {
            throw new IllegalStateException("climb " + record.id() + " has no result");
        }
        return result;
    }

    /** The exit code of a climb that came to its end. */
    static int exit(ClimbRecord record) {
        return Exit.of(result(record).outcome());
    }

    /** @param more whether to list every try, and the notes */
    static void print(ClimbRecord record, RunFolder files, Console console, boolean more) {
        ClimbResult result = result(record);
        Wrapped out = new Wrapped(console);
        out.print("", result.sentence());
        out.print("What to do now: ", ClimbWords.advice(record, result));
        result.reasons().forEach(reason -> out.print("Why: ", reason));
        if (more) {
            result.notes().forEach(note -> out.print("Note: ", note));
            Table table = new Table("try", ">at", ">buffer margin", ">rate margin", ">audio lost", "result");
            for (ClimbStep step : record.steps()) {
                table.row(row(step, record).toArray(String[]::new));
            }
            table.print(console);
            out.print("Record: ", files.record().toString());
        }
        out.print("Report: ", files.page().toString());
        console.out().flush();
    }

    private static List<String> row(ClimbStep step, ClimbRecord record) {
        Ladder.Kind kind = switch (record.ladder().grows()) {
            case TRACKS -> Ladder.Kind.TRACKS;
            case SAMPLE_RATE -> Ladder.Kind.SAMPLE_RATE;
        };
        List<String> cells = new ArrayList<>();
        cells.add(step.kind() == ClimbStep.Kind.TAKE ? "take" : "sound-check");
        cells.add(ClimbLines.amount(step.at(), kind));
        cells.add(margin(step.bufferMargin()));
        cells.add(margin(step.rateMargin()));
        cells.add(step.lostUncounted() ? "all after it stopped" : step.lostMs() > 0 ? Units.ms(step.lostMs()) : "none");
        cells.add(step.carried() == null ? "not told" : step.carried() ? "holds" : "misses " + ClimbWords.missed(step));
        return cells;
    }

    private static String margin(@Nullable Double margin) {
        return margin == null ? "not measured" : Units.factor(margin);
    }
}
