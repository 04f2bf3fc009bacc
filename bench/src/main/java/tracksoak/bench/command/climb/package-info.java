/** The climb command. */
@NullMarked
package tracksoak.bench.command.climb;

import org.jspecify.annotations.NullMarked;
