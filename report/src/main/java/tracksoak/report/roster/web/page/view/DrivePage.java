package tracksoak.report.roster.web.page.view;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;

/**
 * One drive with all that is known of it.
 *
 * @param name tag and hardware in one line
 * @param withdrawn why it is withdrawn, null while it is not
 * @param warnings what a person must settle, one sentence each
 * @param facts the hardware
 * @param standings what it is worth, session by session, without those it was never proven for
 * @param unproven names of these, empty for none
 * @param charts the figures over time
 * @param past what was left out of the lists, empty if nothing was
 */
public record DrivePage(
        Frame frame,
        Shown name,
        @Nullable Shown withdrawn,
        List<Shown> warnings,
        Facts facts,
        List<StandingView> standings,
        Shown unproven,
        List<DateChart> charts,
        List<RunRow> runs,
        List<Happening> history,
        String past,
        String labelHref) {}
