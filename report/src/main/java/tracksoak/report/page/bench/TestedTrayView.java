package tracksoak.report.page.bench;

import tracksoak.report.roster.web.page.view.Frame;

/** One tray on a page of its own. */
public record TestedTrayView(Frame frame, TestedTray tray, boolean notice, String secret) {}
