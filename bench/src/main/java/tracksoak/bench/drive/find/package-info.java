/** Which drives there are and what is known of each: identity, mount, link, suitability. */
@NullMarked
package tracksoak.bench.drive.find;

import org.jspecify.annotations.NullMarked;
