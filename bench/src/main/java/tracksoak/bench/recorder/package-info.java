/** Clocks, pacing and the recorder loop: backlog, stalls, overruns, host delays. */
@NullMarked
package tracksoak.bench.recorder;

import org.jspecify.annotations.NullMarked;
