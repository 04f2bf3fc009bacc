/** The small interface every drive is reached through, and the real drive behind it. */
@NullMarked
package tracksoak.bench.drive.io;

import org.jspecify.annotations.NullMarked;
