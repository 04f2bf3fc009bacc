package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;

/**
 * What reading all tracks at once at session rate found. A track falls silent while the audio due is not there: the
 * player starts with its buffer full, as a person waits for "ready", and asks for the next chunk of a track as soon as
 * there is room for it. What comes too late is left out, so that the tracks stay together. In the phase around it,
 * {@code lostMs} is the silence on the worst track, the backlog is what the player's buffer lacks, and service and
 * response are those of the reads.
 *
 * @param readerBufferS what the player holds per track, in s
 * @param underruns times a track ran dry
 * @param silentMs silence on the worst track, in ms
 * @param silentTrackMs silence, summed over all tracks, in ms
 * @param leastHeldMs least audio held by any track just before a chunk arrived, in ms
 * @param fromDevice whether the device's counters show that the bytes came from the device
 * @param mix the mix written meanwhile, null where none is
 */
public record PlaybackFacts(
        double readerBufferS,
        long underruns,
        double silentMs,
        double silentTrackMs,
        double leastHeldMs,
        ReadBackFacts.Origin fromDevice,
        @Nullable MixFacts mix) {}
