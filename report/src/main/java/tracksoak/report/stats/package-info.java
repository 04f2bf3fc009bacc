/** Steady state, change point, floor and percentiles: plain arithmetic over numbers. */
@NullMarked
package tracksoak.report.stats;

import org.jspecify.annotations.NullMarked;
