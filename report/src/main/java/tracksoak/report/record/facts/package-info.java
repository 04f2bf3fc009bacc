/** What one run, climb or drill measured: the immutable model of the run record. Knows no JSON. */
@NullMarked
package tracksoak.report.record.facts;

import org.jspecify.annotations.NullMarked;
