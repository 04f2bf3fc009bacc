/** What the roster's pages show: text ready to be escaped, no logic. */
@NullMarked
package tracksoak.report.roster.web.page.view;

import org.jspecify.annotations.NullMarked;
