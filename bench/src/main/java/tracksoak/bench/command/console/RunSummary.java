package tracksoak.bench.command.console;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tracksoak.report.page.Advice;
import tracksoak.report.record.facts.Criterion;
import tracksoak.report.record.facts.CriterionId;
import tracksoak.report.record.facts.Estimate;
import tracksoak.report.record.facts.Odds;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.verdict.Retention;

/** What a run came to, in a few plain lines. */
public final class RunSummary {

    private static final int MOST_REASONS = 3;

    private RunSummary() {}

    /** The verdict of a record that was judged. */
    public static Verdict verdict(RunRecord record) {
        Verdict verdict = record.verdict();
        if (verdict == null) {
            throw new IllegalStateException("run " + record.id() + " was never judged");
        }
        return verdict;
    }

    /** What to do now. */
    public static String advice(RunRecord record) {
        return Advice.of(record, verdict(record));
    }

    /**
     * Verdict, sentence, what to do, what was missed, where the report is.
     *
     * @param more whether to show all the rest as well
     */
    public static void print(
            RunRecord record, @Nullable Path report, @Nullable Path recordFile, Console console, boolean more) {
        print(record, report, recordFile, console, more, out -> {});
    }

    /**
     * The same.
     *
     * @param second says what comes right under the verdict
     */
    public static void print(
            RunRecord record,
            @Nullable Path report,
            @Nullable Path recordFile,
            Console console,
            boolean more,
            Consumer<Wrapped> second) {
        Verdict verdict = verdict(record);
        Wrapped out = new Wrapped(console);
        String word = word(verdict.outcome(), false);
        out.print(word(verdict.outcome(), console.outMayBeStyled()) + "  ", word.length() + 2, verdict.sentence());
        second.accept(out);
        if (!more) {
            record.phases().stream()
                    .filter(phase -> phase.keepsake() != null && Retention.faded(phase) == 0)
                    .forEach(kept -> out.print("Keepsake: ", Retention.sentence(kept)));
        }
        out.print("What to do now: ", advice(record));
        verdict.criteria().stream()
                .filter(Criterion::missed)
                .forEach(missed -> criterion("Missed: ", missed, more, out));
        List<String> reasons = verdict.reasons();
        reasons.stream().limit(more ? reasons.size() : MOST_REASONS).forEach(reason -> out.print("Why: ", reason));
        if (!more && reasons.size() > MOST_REASONS) {
            out.print("     ", "and " + (reasons.size() - MOST_REASONS) + " more");
        }
        Estimate estimate = verdict.estimate();
        if (estimate != null) {
            out.print("An estimate, no verdict: ", estimate.sentence());
        }
        if (more) {
            rest(verdict, out);
        }
        if (report != null) {
            out.print("Report: ", report.toString());
        }
        if (recordFile != null) {
            if (more) {
                out.print("Record: ", recordFile.toString());
            } else {
                out.print("More:   ", "tracksoak report " + ShellWord.of(recordFile) + " --more");
            }
        }
        console.out().flush();
    }

    private static void rest(Verdict verdict, Wrapped out) {
        if (!verdict.scope().isEmpty()) {
            out.print("Tested: ", verdict.scope());
        }
        verdict.criteria().stream()
                .filter(criterion -> !criterion.missed())
                .forEach(criterion ->
                        criterion(Boolean.TRUE.equals(criterion.met()) ? "Met: " : "Open: ", criterion, true, out));
        Estimate estimate = verdict.estimate();
        if (estimate != null) {
            for (Estimate.Figure figure : estimate.figures()) {
                out.print(
                        "Estimated: ",
                        name(figure.id()) + " " + figure.hopeful() + " at best, " + figure.cautious()
                                + " at worst; needed " + figure.needed());
            }
        }
        Odds odds = verdict.odds();
        if (odds != null && !verdict.lostAudio()) {
            out.print("Odds: ", odds.sentence());
        }
        verdict.notes().forEach(note -> out.print("Note: ", note));
    }

    private static void criterion(String lead, Criterion criterion, boolean whole, Wrapped out) {
        String figures = name(criterion.id()) + ": " + criterion.measured() + "; needed: " + criterion.needed();
        out.print(lead, whole ? figures + ". " + criterion.sentence() : figures);
    }

    /** What the page calls it, too. */
    private static String name(String id) {
        return CriterionId.of(id).map(CriterionId::title).orElse(id);
    }

    /** PASS, FAIL or NO VERDICT; green, red or yellow and bold where that may be. */
    static String word(Verdict.Outcome outcome, boolean styled) {
        String word = outcome.words();
        int colour = switch (outcome) {
            case PASS -> 32;
            case FAIL -> 31;
            case NO_VERDICT -> 33;
        };
        return styled ? "\033[1;" + colour + "m" + word + "\033[0m" : word;
    }
}
