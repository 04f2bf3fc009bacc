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
 * @param site what else is on this site
 */
public record Frame(String title, String here, boolean closed, String asOf, String mark, Site site) {

    /** What is served at one address. */
    public enum Site {
        /** The roster alone. */
        ROSTER,
        /** The bench of this computer, and the roster with it. */
        BENCH
    }

    /** The same with other words at its top. */
    public Frame titled(String other) {
        return new Frame(other, here, closed, asOf, mark, site);
    }

    /** Whether the bench is on this site, too. */
    public boolean bench() {
        return site == Site.BENCH;
    }

    /** Where an entry of the bench's menu leads. */
    public String address(String entry) {
        return entry.equals("bench") ? "/bench" : "/bench/" + entry;
    }

    /** Which of the news the page waits for. */
    public String watch() {
        return mark.contains("/") ? "bench" : "roster";
    }

    /** What to do where the page cannot be kept up to date. */
    public String lost() {
        return bench()
                ? "The bench has ended, or does not answer. Start it again as you did, and go on in the page that it"
                        + " opens. A test goes on without it. If the bench comes back at this address, this page goes on"
                        + " by itself."
                : "This page goes on by itself once the roster can be reached again.";
    }

    /** Whether the page keeps itself up to date. */
    public boolean live() {
        return !mark.isEmpty();
    }
}
