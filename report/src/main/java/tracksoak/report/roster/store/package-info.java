/** Where a roster is kept. Only this package knows a database. */
@NullMarked
package tracksoak.report.roster.store;

import org.jspecify.annotations.NullMarked;
