package tracksoak.report.roster.web.page.view;

/**
 * Where one is in a long table.
 *
 * @param where such as {@code drives 51 to 100 of 412}
 * @param before the page before, empty at the start
 * @param after the page after, empty at the end
 */
public record Pager(String where, String before, String after) {}
