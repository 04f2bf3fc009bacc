package tracksoak.report.roster.web.page.view;

import tracksoak.report.page.view.Shown;

/**
 * What cannot be shown, and what to do about it. The same page takes a token.
 *
 * @param heading what cannot be done
 * @param why why not
 * @param whatToDo what to do
 * @param form whether a token can be entered here
 */
public record TroublePage(Frame frame, String heading, Shown why, Shown whatToDo, boolean form) {}
