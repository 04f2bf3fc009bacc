/** Bringing rosters together: over a network, or through a file on a stick. */
@NullMarked
package tracksoak.report.roster.exchange;

import org.jspecify.annotations.NullMarked;
