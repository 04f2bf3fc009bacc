/** The drives and clear commands, and the choice of a drive for any other. */
@NullMarked
package tracksoak.bench.command.drives;

import org.jspecify.annotations.NullMarked;
