package tracksoak.report.page.view;

/**
 * One row of the criteria.
 *
 * @param name the criterion in words
 * @param state {@code met}, {@code missed}, {@code open} or {@code untested}: picks the shape, never the only sign
 * @param word the same in words
 */
public record CriterionView(
        String name, Shown needed, Shown measured, String margin, String state, String word, Shown sentence) {}
