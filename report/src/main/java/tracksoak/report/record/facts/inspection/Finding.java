package tracksoak.report.record.facts.inspection;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Something found in a recording.
 *
 * @param weight what it means for the verdict
 * @param take the take it lies in, empty where it is about none
 * @param tracks the tracks it is on, or the files it is about; the first {@value #MOST_NAMED} of them
 * @param trackCount how many they are
 * @param atS where in the take it begins, in s; null where it has no place
 * @param atSample the same in samples of the track; null where it has no place
 * @param samples how long it is in samples of the track; null where it has no length
 * @param exact whether place and length are exact to the sample; else they are to the millisecond
 * @param sentence one plain sentence
 */
public record Finding(
        FindingKind kind,
        Weight weight,
        String take,
        List<String> tracks,
        int trackCount,
        @Nullable Double atS,
        @Nullable Long atSample,
        @Nullable Double samples,
        boolean exact,
        String sentence) {

    /** So many tracks are named. */
    public static final int MOST_NAMED = 64;

    /** What a finding means for the verdict. */
    public enum Weight {
        /** Audio is missing or spoilt, or a file cannot be opened as it is: FAIL. */
        FAULT,
        /** It may be, and nobody but a person can tell: no PASS. */
        LISTEN,
        /** Worth knowing. */
        NOTE
    }

    public Finding {
        tracks = List.copyOf(tracks);
    }
}
