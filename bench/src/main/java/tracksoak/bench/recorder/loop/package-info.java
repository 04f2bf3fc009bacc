/** The recorder itself: timetable, ledger, loop, and the books they keep of backlog, losses and stalls. */
@NullMarked
package tracksoak.bench.recorder.loop;

import org.jspecify.annotations.NullMarked;
