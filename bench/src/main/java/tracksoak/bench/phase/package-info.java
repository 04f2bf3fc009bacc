/** The phases of a run and the plans that string them together. */
@NullMarked
package tracksoak.bench.phase;

import org.jspecify.annotations.NullMarked;
