package tracksoak.report.page.bench;

import java.util.List;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.page.view.Option;

/**
 * Drives tested in one go: what can be chosen, what was, and how it came out.
 *
 * @param drives that can be chosen
 * @param problems why the tray cannot be started
 * @param runs of the latest tray, in the order they were asked for
 * @param state how the tray is, in a sentence; empty where there was none
 * @param goesOn address to go on with a tray that was cut short, empty where there is nothing to go on with
 * @param stops address to stop all of it, empty where nothing goes on
 * @param models the roster's answer to which model to buy
 */
public record TrayView(
        Frame frame,
        List<DriveLine> drives,
        List<Option> sessions,
        List<Option> plans,
        List<Shown> problems,
        String secret,
        List<RunLine> runs,
        Shown state,
        String goesOn,
        String stops,
        List<Model> models) {

    public TrayView {
        drives = List.copyOf(drives);
        sessions = List.copyOf(sessions);
        plans = List.copyOf(plans);
        problems = List.copyOf(problems);
        runs = List.copyOf(runs);
        models = List.copyOf(models);
    }

    /**
     * How often a model passed for a session.
     *
     * @param model maker, model and size
     * @param drives how many drives of it
     * @param passes how many of their runs passed, of how many
     * @param session of these runs
     */
    public record Model(Shown model, String drives, String passes, Shown session) {}
}
