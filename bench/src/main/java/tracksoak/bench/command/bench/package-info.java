/** The bench command: the page of this computer. */
@NullMarked
package tracksoak.bench.command.bench;

import org.jspecify.annotations.NullMarked;
