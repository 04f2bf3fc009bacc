/** Raising the length of stops on a stand-in until the recorder loses audio. */
@NullMarked
package tracksoak.bench.standin.probe;

import org.jspecify.annotations.NullMarked;
