package tracksoak.report.record.facts.drill;

import org.jspecify.annotations.Nullable;

/**
 * One stream of the take that was cut off: a track, or all tracks of an interleaved file. All in bytes of audio.
 *
 * @param firstTrack its first track, from 1
 * @param tracks tracks in it
 * @param bytesPerSecond its rate in B/s
 * @param producedBytes audio made until the drive was found gone
 * @param droppedBytes of it, audio the recorder had lost before because its buffer was full
 * @param writtenBytes audio whose write had come back well
 * @param flushedBytes audio whose write had come back before the last flush that came back well
 * @param readableBytes audio that can be read from the beginning on without a gap, null before it was read
 * @param laterBytes good audio behind the first gap, null before it was read
 */
public record DrillTrack(
        int firstTrack,
        int tracks,
        long bytesPerSecond,
        long producedBytes,
        long droppedBytes,
        long writtenBytes,
        long flushedBytes,
        @Nullable Long readableBytes,
        @Nullable Long laterBytes) {

    /** Audio made that cannot be read any more, in ms; all of it before it was read. */
    public double lostMs() {
        return ms(producedBytes - droppedBytes - (readableBytes == null ? 0 : readableBytes));
    }

    /** Audio made since the last flush, in ms. */
    public double sinceFlushMs() {
        return ms(producedBytes - droppedBytes - flushedBytes);
    }

    /** Audio that had been flushed and cannot be read all the same, in ms. */
    public double brokenMs() {
        return ms(flushedBytes - (readableBytes == null ? 0 : readableBytes));
    }

    /** Audio whose write had come back well and that cannot be read all the same, flushed or not, in ms. */
    public double confirmedLostMs() {
        return ms(writtenBytes - (readableBytes == null ? 0 : readableBytes));
    }

    /** Audio made and not lost in the recorder, in ms. */
    public double keptMs() {
        return ms(producedBytes - droppedBytes);
    }

    /** Audio that came in until the drive was found gone, in ms. */
    public double producedMs() {
        return ms(producedBytes);
    }

    /** Audio that can be read, in ms. */
    public double readableMs() {
        return ms(readableBytes == null ? 0 : readableBytes);
    }

    private double ms(long bytes) {
        return bytesPerSecond == 0 ? 0 : Math.max(0, bytes) * 1e3 / bytesPerSecond;
    }
}
