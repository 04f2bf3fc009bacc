/** Watching while the recorder works: the computer's own delays, calls that do not come back, the drive's answers. */
@NullMarked
package tracksoak.bench.recorder.watch;

import org.jspecify.annotations.NullMarked;
