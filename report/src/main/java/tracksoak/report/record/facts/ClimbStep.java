package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * One look of a climb.
 *
 * @param kind short take, or sound-check
 * @param at tracks, or sample rate in Hz
 * @param runId UUIDv7 of the run; that of a check has a record of its own
 * @param startedAt ISO-8601 instant in UTC
 * @param seconds how long it took, in s
 * @param bytes bytes written
 * @param bufferMargin recorder buffer ÷ largest backlog, at most 1000; null if not measured
 * @param rateMargin the smaller of floor ÷ demand and 1 ÷ busy fraction, at most 1000; null if not measured
 * @param lostMs audio lost on the worst track, in ms
 * @param peakBacklogMs largest backlog, in ms of audio
 * @param longestStallMs longest stall, in ms; 0 if there was none
 * @param carried whether every criterion was met; null if that could not be told
 * @param kept whether no audio was lost; null if that could not be told
 * @param missed words of the criteria missed, see {@link CriterionId}
 * @param sentence one plain sentence
 */
public record ClimbStep(
        Kind kind,
        int at,
        String runId,
        String startedAt,
        double seconds,
        long bytes,
        @Nullable Double bufferMargin,
        @Nullable Double rateMargin,
        double lostMs,
        double peakBacklogMs,
        double longestStallMs,
        @Nullable Boolean carried,
        @Nullable Boolean kept,
        List<String> missed,
        String sentence) {

    /** How thorough it was. */
    public enum Kind {
        /** A short take on the filled drive. */
        TAKE,
        /** A whole sound-check. */
        CHECK
    }

    public ClimbStep {
        missed = List.copyOf(missed);
    }

    /** Whether audio was lost although none was counted: the drive stopped answering, and all after that is lost. */
    public boolean lostUncounted() {
        return lostMs <= 0 && Boolean.FALSE.equals(kept);
    }
}
