/** What an unplug drill measured. */
@NullMarked
package tracksoak.report.record.facts.drill;

import org.jspecify.annotations.NullMarked;
