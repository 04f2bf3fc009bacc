package tracksoak.bench.command.console;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.report.page.Advice;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.Estimate;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;

/** What a run came to, in a few plain lines. */
public final class RunSummary {

    private RunSummary() {}

    /** The verdict of a record that was judged. */
    public static Verdict verdict(RunRecord record) {
        Verdict verdict = record.verdict();
        if (verdict == null) {
            throw new IllegalStateException("run " + record.id() + " was never judged");
        }
        return verdict;
    }

    public static void print(RunRecord record, @Nullable Path report, @Nullable Path recordFile, Console console) {
        Verdict verdict = verdict(record);
        PrintWriter out = console.out();
        out.println(word(verdict.outcome(), console.outMayBeStyled()) + "  " + Inert.whole(verdict.sentence()));
        if (!verdict.scope().isEmpty()) {
            out.println("  " + Inert.whole(verdict.scope()));
        }
        out.println("  what to do now: " + Inert.whole(Advice.of(record, verdict)));
        for (Criterion criterion : verdict.criteria()) {
            if (Boolean.FALSE.equals(criterion.met())) {
                String said = verdict.sentence().endsWith(criterion.sentence()) ? "" : ". " + criterion.sentence();
                out.println(Inert.whole("  missed: " + criterion.id() + ": needed " + criterion.needed() + ", measured "
                        + criterion.measured() + said));
            }
        }
        lines("  why: ", verdict.reasons(), out);
        Estimate estimate = verdict.estimate();
        if (estimate != null) {
            estimate(estimate, out);
        }
        Odds odds = verdict.odds();
        if (odds != null) {
            out.println("  odds: " + Inert.whole(odds.sentence()));
        }
        lines("  note: ", verdict.notes(), out);
        if (report != null) {
            out.println("  report: " + Inert.whole(report.toString()));
        }
        if (recordFile != null) {
            out.println("  record: " + Inert.whole(recordFile.toString()));
        }
        out.flush();
    }

    private static void estimate(Estimate estimate, PrintWriter out) {
        out.println("  estimate, no verdict: " + Inert.whole(estimate.sentence()));
        for (Estimate.Figure figure : estimate.figures()) {
            out.println(Inert.whole("    " + figure.id() + ": needed " + figure.needed() + ", at best "
                    + figure.hopeful() + ", at worst " + figure.cautious()));
        }
    }

    private static void lines(String lead, List<String> sentences, PrintWriter out) {
        sentences.forEach(sentence -> out.println(lead + Inert.whole(sentence)));
    }

    /** PASS, FAIL or NO VERDICT; green, red or yellow and bold where that may be. */
    static String word(Verdict.Outcome outcome, boolean styled) {
        String word = outcome.name().replace('_', ' ');
        int colour = switch (outcome) {
            case PASS -> 32;
            case FAIL -> 31;
            case NO_VERDICT -> 33;
        };
        return styled ? "\033[1;" + colour + "m" + word + "\033[0m" : word;
    }
}
