package tracksoak.bench.recording;

import org.jspecify.annotations.Nullable;

/**
 * What a WAVE file says of itself, beside what is there.
 *
 * @param container which kind of it
 * @param dataAt offset of the first sample, in bytes
 * @param toldBytes bytes of samples by the header; as many as there are where {@code finish} is {@code NEVER}
 * @param presentBytes bytes of samples the file can hold by its own size, at most {@code toldBytes}
 * @param fileBytes size of the file
 * @param finish whether header and file agree
 * @param behindBytes bytes behind the samples that are no chunk of the format
 * @param outerBytes size of the file by its first chunk; −1 where that was never written
 * @param timeReference samples since midnight at the first one (EBU Tech 3285); null where nothing says so
 */
public record WaveHeader(
        Container container,
        WaveFormat format,
        long dataAt,
        long toldBytes,
        long presentBytes,
        long fileBytes,
        Finish finish,
        long behindBytes,
        long outerBytes,
        @Nullable Long timeReference) {

    /** Kinds of WAVE files: EBU Tech 3306 for RF64, ITU-R BS.2088 for BW64. */
    public enum Container {
        RIFF,
        RF64,
        BW64
    }

    /** How the header stands to the file. */
    public enum Finish {
        /** They agree. */
        DONE,
        /** The header was never finished: it does not tell the length. */
        NEVER,
        /** The file ends before the samples that the header tells. */
        CUT,
        /** There is audio behind the end that the header tells. */
        BEHIND
    }

    /** Whole samples of each track that are there. */
    public long samples() {
        return presentBytes / format.frameBytes();
    }

    /** Bytes at the end that make no whole sample of every track. */
    public int brokenBytes() {
        return (int) (presentBytes % format.frameBytes());
    }
}
