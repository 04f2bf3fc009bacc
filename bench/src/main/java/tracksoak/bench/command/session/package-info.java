/** The sessions commands, and the choice of a session for any other. */
@NullMarked
package tracksoak.bench.command.session;

import org.jspecify.annotations.NullMarked;
