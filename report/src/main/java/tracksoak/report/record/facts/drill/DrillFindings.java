package tracksoak.report.record.facts.drill;

/**
 * What a drill comes to.
 *
 * @param sentence one plain sentence
 * @param advice what to do about it
 * @param worstLostMs audio lost by the pull on the worst track, in ms
 * @param worstTrack that track, from 1
 * @param worstSinceFlushMs audio made since the last flush on the track where that was longest, in ms
 * @param worstBrokenMs audio that had been flushed and is lost all the same, on the worst track, in ms
 * @param filesOpen files of the take cut off that open as they are
 * @param filesRepair those that must be repaired first
 * @param filesEmpty those that hold no audio
 * @param filesGone those whose name is gone
 * @param stoppedLostMs audio lost of the take that was stopped first, on its worst track, in ms
 * @param stoppedFilesBad its files that do not open as they are
 * @param savedMs what stopping first would have saved on the worst track, in ms
 */
public record DrillFindings(
        String sentence,
        String advice,
        double worstLostMs,
        int worstTrack,
        double worstSinceFlushMs,
        double worstBrokenMs,
        int filesOpen,
        int filesRepair,
        int filesEmpty,
        int filesGone,
        double stoppedLostMs,
        int stoppedFilesBad,
        double savedMs) {}
