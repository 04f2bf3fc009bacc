/** The qualify, requalify and report commands. */
@NullMarked
package tracksoak.bench.command.qualify;

import org.jspecify.annotations.NullMarked;
