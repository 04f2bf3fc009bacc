/** How records are written to and read from JSON, with the checks on what is read. */
@NullMarked
package tracksoak.report.record.json;

import org.jspecify.annotations.NullMarked;
