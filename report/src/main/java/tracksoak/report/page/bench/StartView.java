package tracksoak.report.page.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.page.view.Option;

/**
 * What is about to be tested: first chosen, then confirmed.
 *
 * @param drives those plugged in that can be tested
 * @param simulated drives made of software
 * @param plans each with what it means
 * @param tag what the crew calls the drive
 * @param would what would be done; null while not all is chosen, or where it cannot be done
 * @param left what tests that were cut short left on the drive
 * @param problems why it cannot be done
 * @param remarks what to know before
 * @param secret lets this page start a run
 * @param isSimulated whether the chosen drive is simulated
 */
public record StartView(
        Frame frame,
        List<Option> drives,
        List<Option> simulated,
        List<Option> sessions,
        List<Option> plans,
        Shown tag,
        @Nullable Facts would,
        List<Shown> left,
        List<Shown> problems,
        List<Shown> remarks,
        String secret,
        boolean isSimulated) {

    /** The one of these that is chosen, to be sent on; empty for none. */
    public static String chosen(List<Option> options) {
        return options.stream()
                .filter(Option::chosen)
                .map(Option::value)
                .findFirst()
                .orElse("");
    }

    /** The drive that is chosen. */
    public String drive() {
        String plugged = chosen(drives);
        return plugged.isEmpty() ? chosen(simulated) : plugged;
    }
}
