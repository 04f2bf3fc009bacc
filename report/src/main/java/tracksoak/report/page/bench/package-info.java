/** What the bench's own pages show: made for one page and turned into HTML at once. */
@NullMarked
package tracksoak.report.page.bench;

import org.jspecify.annotations.NullMarked;
