/** Telling drives apart: by their hardware, and by the crew's own tags. */
@NullMarked
package tracksoak.report.roster.identity;

import org.jspecify.annotations.NullMarked;
