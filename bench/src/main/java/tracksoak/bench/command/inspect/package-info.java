/** The inspect and signal commands. */
@NullMarked
package tracksoak.bench.command.inspect;

import org.jspecify.annotations.NullMarked;
