package tracksoak.report.page.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.StandingView;

/**
 * A drive that is plugged in.
 *
 * @param key what a form sends to name it
 * @param name maker and model
 * @param facts what is known of it, a few words each
 * @param tag what the crew calls it, empty if the roster does not say
 * @param standing what the roster says of it, null if nothing
 * @param refusals why it cannot be tested, empty if it can
 * @param remarks what to know before
 * @param href where it is tested, empty if it cannot be
 * @param ticked whether it was ticked in a form that has something wrong
 */
public record DriveLine(
        String key,
        Shown name,
        List<Shown> facts,
        Shown tag,
        @Nullable StandingView standing,
        List<Shown> refusals,
        List<Shown> remarks,
        String href,
        boolean ticked) {

    /** The same, as somebody filled it in. */
    public DriveLine filledIn(String typedTag, boolean isTicked) {
        return new DriveLine(key, name, facts, Shown.of(typedTag), standing, refusals, remarks, href, isTicked);
    }
}
