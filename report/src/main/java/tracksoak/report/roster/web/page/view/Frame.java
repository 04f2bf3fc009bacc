package tracksoak.report.roster.web.page.view;

/**
 * What every page of the roster has around it.
 *
 * @param title title of the document
 * @param here which entry of the menu this page is, empty for none
 * @param closed whether reading needs a token
 * @param asOf when what it shows was so, empty where it shows nothing of the roster
 * @param mark how far the roster was before the page was made, so that the page knows whether it missed something; empty for
 *     a page that does not keep itself up to date
 */
public record Frame(String title, String here, boolean closed, String asOf, String mark) {

    /** Whether the page keeps itself up to date. */
    public boolean live() {
        return !mark.isEmpty();
    }
}
