/** Partitions and file systems of a device or an image, read byte by byte without mounting them, and never written to. */
@NullMarked
package tracksoak.bench.volume;

import org.jspecify.annotations.NullMarked;
