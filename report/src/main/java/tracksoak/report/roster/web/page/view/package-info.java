/** What the roster's pages show: text ready to be escaped, no logic; made for one page and turned into HTML at once. */
@NullMarked
package tracksoak.report.roster.web.page.view;

import org.jspecify.annotations.NullMarked;
