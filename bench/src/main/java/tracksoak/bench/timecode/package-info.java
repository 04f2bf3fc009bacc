/** Linear timecode and the test signal made of it: coding, decoding, and finding what of it is missing. */
@NullMarked
package tracksoak.bench.timecode;

import org.jspecify.annotations.NullMarked;
