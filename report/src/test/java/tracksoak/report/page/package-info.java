/** The report, read as text, as HTML and in a browser. */
@NullMarked
package tracksoak.report.page;

import org.jspecify.annotations.NullMarked;
