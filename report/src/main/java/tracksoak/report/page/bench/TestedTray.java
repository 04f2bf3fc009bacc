package tracksoak.report.page.bench;

import java.util.List;
import tracksoak.report.page.view.Shown;

/**
 * One tray that goes on or is over.
 *
 * @param href its own page
 * @param begun when it was begun
 * @param runs in the order they were asked for
 * @param state how it is, in a sentence
 * @param going whether a drive is still to be tested
 * @param sleep what to know of the computer's sleep while it goes on, else empty
 * @param remarks what was to be known before, one sentence each
 * @param labels where the labels of its drives are printed
 * @param goesOn address to go on where it was cut short, empty where there is nothing to go on with
 * @param stops address to stop all of it, empty where nothing goes on
 */
public record TestedTray(
        String href,
        String begun,
        List<RunLine> runs,
        Shown state,
        boolean going,
        String sleep,
        List<Shown> remarks,
        List<Link> labels,
        String goesOn,
        String stops) {}
