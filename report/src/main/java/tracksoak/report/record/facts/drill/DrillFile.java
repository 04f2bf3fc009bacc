package tracksoak.report.record.facts.drill;

import org.jspecify.annotations.Nullable;

/**
 * One file of a drill as it was found after the drive came back.
 *
 * @param name in the drill's folder
 * @param stoppedFirst whether it belongs to the take that was stopped and closed before the pull
 * @param firstTrack first track in it, from 1
 * @param wroteBytes audio the bench had written to it, in bytes
 * @param sizeBytes size the file system tells, null if the name is gone
 * @param headerBytes audio its header says it holds, in bytes; null where the header says that recording goes on, or
 *     cannot be read
 * @param readableBytes audio that can be read from its beginning on without a gap, in bytes
 * @param use what a recorder could do with it
 */
public record DrillFile(
        String name,
        boolean stoppedFirst,
        int firstTrack,
        long wroteBytes,
        @Nullable Long sizeBytes,
        @Nullable Long headerBytes,
        long readableBytes,
        Use use) {

    /** What a recorder could do with a file. */
    public enum Use {
        /** The header tells the length and all of it can be read: it opens as it is. */
        OPENS,
        /** Audio is there, but the header does not tell how much of it: it must be repaired first. */
        REPAIR,
        /** The name is there, no audio is. */
        EMPTY,
        /** The name is gone. */
        GONE
    }
}
