@NullMarked
package tracksoak.report.page.view;

import org.jspecify.annotations.NullMarked;
