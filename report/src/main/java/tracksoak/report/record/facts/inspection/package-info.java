/** What a recording that a recorder left showed. */
@NullMarked
package tracksoak.report.record.facts.inspection;

import org.jspecify.annotations.NullMarked;
