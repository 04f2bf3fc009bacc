/** The unplug drill: a take, the pull, and what is found on the drive afterwards. */
@NullMarked
package tracksoak.bench.phase.drill;

import org.jspecify.annotations.NullMarked;
