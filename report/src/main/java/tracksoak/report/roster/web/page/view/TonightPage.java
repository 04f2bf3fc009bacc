package tracksoak.report.roster.web.page.view;

import java.util.List;
import tracksoak.report.page.view.Shown;

/**
 * What can be taken for one session.
 *
 * @param sessions sessions to choose from
 * @param session the one chosen, empty text where none is
 * @param answer one plain sentence
 * @param take drives that are trusted or cleared for it, the trusted first
 * @param test drives that would be, once tested again
 * @param testCount how many of those there are in words, empty for none
 * @param labels labels for these, empty for none
 */
public record TonightPage(
        Frame frame,
        List<Option> sessions,
        Shown session,
        Shown answer,
        List<DriveRow> take,
        List<DriveRow> test,
        String testCount,
        String labels) {}
