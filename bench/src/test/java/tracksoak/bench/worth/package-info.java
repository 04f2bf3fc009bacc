/** What a PASS is worth: how often a show loses audio after one, over seeded populations of simulated drives. */
@NullMarked
package tracksoak.bench.worth;

import org.jspecify.annotations.NullMarked;
