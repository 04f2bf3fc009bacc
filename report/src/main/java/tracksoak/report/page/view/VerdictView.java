package tracksoak.report.page.view;

import java.util.List;

/**
 * The head of the sheet.
 *
 * @param state {@code pass}, {@code fail} or {@code none}
 * @param word PASS, FAIL or NO VERDICT
 * @param drive the drive in one line
 * @param facts what and when, in the ruled fields under the drive
 * @param warnings what limits the verdict at first sight, such as a shortened plan
 * @param advice what to do now
 * @param reasons why there is no verdict
 * @param notes what the reader should know besides
 */
public record VerdictView(
        String state,
        String word,
        Shown sentence,
        Shown scope,
        Shown drive,
        List<Facts.Fact> facts,
        List<Shown> warnings,
        Shown advice,
        List<Shown> reasons,
        List<Shown> notes) {

    public VerdictView {
        facts = List.copyOf(facts);
        warnings = List.copyOf(warnings);
        reasons = List.copyOf(reasons);
        notes = List.copyOf(notes);
    }
}
