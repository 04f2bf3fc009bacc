/** How many tracks a drive carries: a search by short takes, confirmed by sound-checks. */
@NullMarked
package tracksoak.bench.climb;

import org.jspecify.annotations.NullMarked;
