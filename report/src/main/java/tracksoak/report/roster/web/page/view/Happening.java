package tracksoak.report.roster.web.page.view;

import tracksoak.report.page.view.Shown;

/**
 * One line of a drive's history.
 *
 * @param when date and time
 * @param what what happened
 * @param who who did it
 * @param why the reason or the note
 * @param signature what is wrong with its signature, empty where it holds
 */
public record Happening(String when, Shown what, Shown who, Shown why, String signature) {}
