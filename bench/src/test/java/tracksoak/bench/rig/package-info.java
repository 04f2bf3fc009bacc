/**
 * Real block devices and file systems over a backend as bad as a test wants it (Linux, root), and the bench held against
 * them.
 */
@NullMarked
package tracksoak.bench.rig;

import org.jspecify.annotations.NullMarked;
