/** The bytes of a stream: stamped blocks and the files that hold them. */
@NullMarked
package tracksoak.bench.stream;

import org.jspecify.annotations.NullMarked;
