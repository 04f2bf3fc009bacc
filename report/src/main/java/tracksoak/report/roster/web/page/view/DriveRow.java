package tracksoak.report.roster.web.page.view;

import java.util.List;
import tracksoak.report.page.view.Shown;

/**
 * One drive in a table.
 *
 * @param href its own page
 * @param tags the crew's tags, usually one, or a word that there is none
 * @param drive maker, model and size
 * @param serial serial number
 * @param standing for the session asked for, or that of its latest run
 * @param flags what a person must settle, in a few words each
 * @param lastRun when it was last tested
 */
public record DriveRow(
        String href,
        List<Shown> tags,
        Shown drive,
        Shown serial,
        StandingView standing,
        List<String> flags,
        String lastRun) {}
