/** A recorder on virtual time, all of whose habits are known: for the demo, and to hold against what is learnt of it. */
@NullMarked
package tracksoak.bench.standin.model;

import org.jspecify.annotations.NullMarked;
