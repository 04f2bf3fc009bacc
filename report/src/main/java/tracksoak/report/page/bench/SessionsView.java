package tracksoak.report.page.bench;

import java.util.List;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.Frame;

/**
 * The sessions known here.
 *
 * @param problems what is wrong with files of the user's folder
 */
public record SessionsView(Frame frame, List<Line> sessions, List<Shown> problems) {

    /**
     * One session.
     *
     * @param href its own page
     * @param demand what it asks of a drive
     * @param own whether it is the user's, not a shipped one
     */
    public record Line(String href, Shown name, Shown title, String tracks, String demand, boolean own) {}
}
