/** Runs in processes of their own: what was asked, how each gets on, and whose turn it is. */
@NullMarked
package tracksoak.bench.tray;

import org.jspecify.annotations.NullMarked;
