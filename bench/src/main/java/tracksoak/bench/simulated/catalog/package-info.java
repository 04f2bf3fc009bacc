/** Simulated drives as data: files that compose one of behaviours by name and value, and the named ones. */
@NullMarked
package tracksoak.bench.simulated.catalog;

import org.jspecify.annotations.NullMarked;
