/** What the facts of a run mean for a session: criteria and judge, pure functions. */
@NullMarked
package tracksoak.report.verdict;

import org.jspecify.annotations.NullMarked;
