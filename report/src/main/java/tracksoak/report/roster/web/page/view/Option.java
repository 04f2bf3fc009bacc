package tracksoak.report.roster.web.page.view;

import tracksoak.report.page.view.Shown;

/**
 * One entry of a list to choose from.
 *
 * @param value what is sent
 * @param chosen whether it is the one in force
 */
public record Option(String value, Shown label, boolean chosen) {}
