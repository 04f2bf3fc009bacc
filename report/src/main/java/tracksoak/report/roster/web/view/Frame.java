package tracksoak.report.roster.web.view;

import org.jspecify.annotations.Nullable;
import tracksoak.report.page.view.Shown;

/**
 * What every page of the roster has around it.
 *
 * @param title title of the document
 * @param here which entry of the menu this page is, empty for none
 * @param visitor whose token this visit goes by, null where none was entered
 * @param closed whether reading needs a token
 * @param live whether the page keeps itself up to date
 */
public record Frame(String title, String here, @Nullable Shown visitor, boolean closed, boolean live) {}
