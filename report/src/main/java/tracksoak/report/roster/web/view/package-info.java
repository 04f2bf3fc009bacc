/** What the roster's pages show: text ready to be escaped, no logic. */
@NullMarked
package tracksoak.report.roster.web.view;

import org.jspecify.annotations.NullMarked;
