/** What the events of a roster mean: pure functions from events to the state of each drive, and from that to its standing. */
@NullMarked
package tracksoak.report.roster.standing;

import org.jspecify.annotations.NullMarked;
