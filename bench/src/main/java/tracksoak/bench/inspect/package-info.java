/** Looks at a recording that a recorder left: what is in it, and what is wrong with it. Only reads. */
@NullMarked
package tracksoak.bench.inspect;

import org.jspecify.annotations.NullMarked;
