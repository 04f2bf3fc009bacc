/** The demo command: an invented touring theatre and its drives. */
@NullMarked
package tracksoak.bench.command.demo;

import org.jspecify.annotations.NullMarked;
