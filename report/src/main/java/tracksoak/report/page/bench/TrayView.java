package tracksoak.report.page.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.page.view.Option;

/**
 * Drives tested in one go: what can be chosen, what was, and how it came out.
 *
 * @param drives that can be chosen
 * @param problems why the tray cannot be started
 * @param latest the latest tray, null where there was none
 * @param earlier those before it, the newest first
 * @param models the roster's answer to which model to buy
 */
public record TrayView(
        Frame frame,
        List<DriveLine> drives,
        List<Option> sessions,
        List<Option> plans,
        List<Shown> problems,
        String secret,
        @Nullable TestedTray latest,
        List<Link> earlier,
        List<Model> models) {

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
