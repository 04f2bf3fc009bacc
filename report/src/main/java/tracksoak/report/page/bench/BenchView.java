package tracksoak.report.page.bench;

import java.util.List;
import tracksoak.report.roster.web.page.view.Frame;

/**
 * The bench: what is plugged in, and the runs.
 *
 * @param drives what is plugged in, those that can be tested first
 * @param runs the newest first
 */
public record BenchView(Frame frame, List<DriveLine> drives, List<RunLine> runs) {}
