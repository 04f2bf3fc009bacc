/** WAVE files as recorders leave them, and which of them are which tracks of which take. Only reads. */
@NullMarked
package tracksoak.bench.recording;

import org.jspecify.annotations.NullMarked;
