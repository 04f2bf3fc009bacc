/** How a recorder writes, and how much it holds, told from the trace of a stand-in and what was recorded on it. */
@NullMarked
package tracksoak.bench.standin.learn;

import org.jspecify.annotations.NullMarked;
