package tracksoak.report.record.facts.inspection;

import org.jspecify.annotations.Nullable;

/**
 * A file of a recording.
 *
 * @param path from the place that was looked at
 * @param container {@code RIFF}, {@code RF64} or {@code BW64}
 * @param bytes its size
 * @param samples whole samples of each track that are there
 * @param header whether header and file agree
 * @param timeReference samples since midnight at its first one; null where it says nothing of it
 */
public record InspectedFile(
        String path,
        String container,
        long bytes,
        long samples,
        Header header,
        @Nullable Long timeReference) {

    /** How the header stands to the file. */
    public enum Header {
        DONE,
        NEVER,
        CUT,
        BEHIND
    }
}
