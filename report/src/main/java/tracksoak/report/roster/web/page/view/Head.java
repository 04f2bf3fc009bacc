package tracksoak.report.roster.web.page.view;

/**
 * Head of a column that rows can be sorted by.
 *
 * @param text what stands there
 * @param href sorts by it, or the other way round where it is sorted by already; empty where it cannot
 * @param sorted {@code ascending}, {@code descending} or empty
 */
public record Head(String text, String href, String sorted) {}
