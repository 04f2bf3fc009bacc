/** A drive and what is known of it: identity, mount, link, suitability, and the small interface every drive is reached through. */
@NullMarked
package tracksoak.bench.drive;

import org.jspecify.annotations.NullMarked;
