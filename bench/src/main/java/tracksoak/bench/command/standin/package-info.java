/** The stand-in commands: a drive made of software for a recorder to record to. */
@NullMarked
package tracksoak.bench.command.standin;

import org.jspecify.annotations.NullMarked;
