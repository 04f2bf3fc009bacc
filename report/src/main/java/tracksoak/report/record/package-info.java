/** The run record: what one run measured, and how it is written to and read from JSON. */
@NullMarked
package tracksoak.report.record;

import org.jspecify.annotations.NullMarked;
