/** The HTML report of one run. */
@NullMarked
package tracksoak.report.page;

import org.jspecify.annotations.NullMarked;
