/** Figures of simulated drives: their ranges, and how they are written. */
@NullMarked
package tracksoak.bench.simulated.figures;

import org.jspecify.annotations.NullMarked;
