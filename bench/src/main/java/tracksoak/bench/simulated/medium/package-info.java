/** What a simulated medium holds, and where: clusters, extents, and what was written last. */
@NullMarked
package tracksoak.bench.simulated.medium;

import org.jspecify.annotations.NullMarked;
