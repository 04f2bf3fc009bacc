/** What happened in a roster: small signed events, of which everything else is computed. */
@NullMarked
package tracksoak.report.roster.event;

import org.jspecify.annotations.NullMarked;
