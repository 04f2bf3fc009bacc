@NullMarked
package tracksoak.report.page.chart;

import org.jspecify.annotations.NullMarked;
