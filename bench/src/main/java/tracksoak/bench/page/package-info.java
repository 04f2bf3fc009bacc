/** What each address of the bench's page answers. */
@NullMarked
package tracksoak.bench.page;

import org.jspecify.annotations.NullMarked;
