/** What became of one drive from run to run: which runs can be compared, what changed, and whether it is a trend. */
@NullMarked
package tracksoak.report.history;

import org.jspecify.annotations.NullMarked;
