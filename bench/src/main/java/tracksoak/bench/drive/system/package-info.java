/** What the operating system says of drives: mounts, block devices, superblocks, and calls that may hang. */
@NullMarked
package tracksoak.bench.drive.system;

import org.jspecify.annotations.NullMarked;
