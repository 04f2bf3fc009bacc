/**
 * What every room stands on and that knows nothing of ours: clocks, units and counts in words, amounts as people write
 * them, text from outside made harmless, digests.
 */
@NullMarked
package tracksoak.profiles.base;

import org.jspecify.annotations.NullMarked;
