/** A run: its plan, the steps and phases it is made of, and what is noted while they go on. */
@NullMarked
package tracksoak.bench.phase.run;

import org.jspecify.annotations.NullMarked;
