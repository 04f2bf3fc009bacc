/** The commands people type, progress, exit codes and main. */
@NullMarked
package tracksoak.bench.command;

import org.jspecify.annotations.NullMarked;
