package tracksoak.report.page.bench;

import tracksoak.report.roster.web.page.view.Frame;

/**
 * One tray on a page of its own.
 *
 * @param notice whether this computer can show a notice at the end
 * @param secret lets this page stop it, or go on
 */
public record TestedTrayView(Frame frame, TestedTray tray, boolean notice, String secret) {}
