package tracksoak.bench.standin.trace;

/**
 * One request, or one note.
 *
 * @param asked which kind
 * @param throughout whether the recorder asked that it be on the drive before the answer (FUA)
 * @param failed whether it was answered with an error
 * @param arrivedUs when it had arrived whole, in µs since the trace began
 * @param offset first byte; of a note its code, the {@link Note}'s place
 * @param length in bytes; of a note its value
 * @param waitedUs how long it waited for those before it, in µs
 * @param servedUs how long it took from there to the answer, in µs
 */
public record Entry(
        Asked asked,
        boolean throughout,
        boolean failed,
        long arrivedUs,
        long offset,
        long length,
        long waitedUs,
        long servedUs) {

    /** A note. */
    public static Entry note(Note note, long atUs, long value) {
        return new Entry(Asked.NOTE, false, false, atUs, note.code(), value, 0, 0);
    }

    /** When it was answered, in µs since the trace began. */
    public long doneUs() {
        return arrivedUs + waitedUs + servedUs;
    }

    /** Whether it is this note. */
    public boolean is(Note note) {
        return asked == Asked.NOTE && offset == note.code();
    }

    /** Whether it changes bytes of the drive: audio, a header or a table. */
    public boolean writes() {
        return asked == Asked.WRITE || asked == Asked.ZEROS;
    }
}
