/** Simulated drives on virtual time. */
@NullMarked
package tracksoak.bench.simulated;

import org.jspecify.annotations.NullMarked;
