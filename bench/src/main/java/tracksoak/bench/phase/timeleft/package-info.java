/** How far a run is and how long it will still take. */
@NullMarked
package tracksoak.bench.phase.timeleft;

import org.jspecify.annotations.NullMarked;
