package tracksoak.report.record;

/**
 * What reading all tracks back at session rate found. A track falls silent when its next chunk is not there in time: the
 * player starts with its buffer full, as a person waits for "ready", and refills it chunk by chunk.
 *
 * @param readerBufferS what the player holds per track, in s
 * @param underruns times a track ran dry
 * @param silentMs silence on the worst track, in ms
 * @param silentTrackMs silence, summed over all tracks, in ms
 * @param leastHeldMs least audio held by any track just before a chunk arrived, in ms
 * @param mixBytes bytes of the mix written meanwhile, 0 where none is
 * @param mixLostMs audio of the mix lost meanwhile, in ms on its worst track
 * @param cold whether the files were read past the computer's memory
 */
public record PlaybackFacts(
        double readerBufferS,
        long underruns,
        double silentMs,
        double silentTrackMs,
        double leastHeldMs,
        long mixBytes,
        double mixLostMs,
        boolean cold) {}
