/** Independent answers that the bench's own figures are held against. */
@NullMarked
package tracksoak.bench.oracle;

import org.jspecify.annotations.NullMarked;
