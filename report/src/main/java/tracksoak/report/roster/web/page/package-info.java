/** The pages of the roster: what each address answers, filled from the roster into views. */
@NullMarked
package tracksoak.report.roster.web.page;

import org.jspecify.annotations.NullMarked;
