/** The roster commands. */
@NullMarked
package tracksoak.bench.command.roster;

import org.jspecify.annotations.NullMarked;
