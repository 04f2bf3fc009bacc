/** Who says so: keys, canonical text and signatures of records. */
@NullMarked
package tracksoak.report.record.sign;

import org.jspecify.annotations.NullMarked;
