/** The drill command. */
@NullMarked
package tracksoak.bench.command.drill;

import org.jspecify.annotations.NullMarked;
