package tracksoak.report.page.bench;

import tracksoak.report.roster.web.page.view.Frame;

/** What else there is, and how it is reached. */
public record HelpView(Frame frame) {}
