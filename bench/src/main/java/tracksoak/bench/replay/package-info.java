/** Plays the service times of a run through the recorder loop again, at the demand of another session. */
@NullMarked
package tracksoak.bench.replay;

import org.jspecify.annotations.NullMarked;
