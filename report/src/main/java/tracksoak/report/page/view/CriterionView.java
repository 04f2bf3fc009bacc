package tracksoak.report.page.view;

/**
 * One row of the criteria.
 *
 * @param name the criterion in words
 * @param margin have ÷ need, empty where that means nothing
 * @param state {@code met}, {@code missed}, {@code open} or {@code untested}: picks the shape, never the only sign
 * @param word the same in words
 */
public record CriterionView(
        String name, Shown needed, Shown measured, String margin, String state, String word, Shown sentence) {

    /** Whether its sentence is read at once: it was missed, or is open. */
    public boolean matters() {
        return state.equals("missed") || state.equals("open");
    }
}
