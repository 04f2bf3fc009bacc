/** What the bench's own pages show. */
@NullMarked
package tracksoak.report.page.bench;

import org.jspecify.annotations.NullMarked;
