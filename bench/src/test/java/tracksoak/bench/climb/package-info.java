@NullMarked
package tracksoak.bench.climb;

import org.jspecify.annotations.NullMarked;
