package tracksoak.report.roster.web.page.view;

import java.util.List;
import tracksoak.report.page.view.Shown;

/**
 * The table of drives.
 *
 * @param search what is searched for
 * @param sessions sessions to choose from
 * @param standings standings to choose from
 * @param sorts orders to choose from
 * @param ready how many can go tonight, in words; empty for a roster without drives
 * @param count how many drives in words
 * @param labels labels for these drives
 * @param csv the same table for a spreadsheet
 */
public record TablePage(
        Frame frame,
        Shown search,
        List<Option> sessions,
        List<Option> standings,
        List<Option> sorts,
        List<Head> heads,
        List<DriveRow> rows,
        String ready,
        String count,
        Pager pager,
        String labels,
        String csv) {}
