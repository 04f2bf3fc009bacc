/** A drive made of software, served to a recorder as a network block device. */
@NullMarked
package tracksoak.bench.standin;

import org.jspecify.annotations.NullMarked;
