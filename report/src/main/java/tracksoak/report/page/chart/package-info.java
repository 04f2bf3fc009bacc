/** Series thinned for drawing, and the data island that the page's script draws from. */
@NullMarked
package tracksoak.report.page.chart;

import org.jspecify.annotations.NullMarked;
