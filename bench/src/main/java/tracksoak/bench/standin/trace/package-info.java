/** What was asked of a stand-in, request by request, in a file. */
@NullMarked
package tracksoak.bench.standin.trace;

import org.jspecify.annotations.NullMarked;
