package tracksoak.report.record.facts;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;

/**
 * The immutable record of one climb: what was asked of the drive rung by rung, and how far it carried.
 *
 * @param schema {@code tracksoak/climb-record/2}
 * @param id UUIDv7
 * @param tool name and version of the bench, for example {@code tracksoak 1.0.0}
 * @param startedAt ISO-8601 instant in UTC
 * @param endedAt ISO-8601 instant in UTC, null while the climb goes on
 * @param state how far the climb came
 * @param stateReason why it did not complete, empty where it did
 * @param seed seed of the payload
 * @param session the session climbed with; what grows is given by {@code ladder}
 * @param ladder what was to grow, and between which bounds
 * @param plan how long each look was to take
 * @param drive the drive under test
 * @param host the computer
 * @param ioMode how writes reached the drive, null before the first
 * @param fill what the fill before the takes found, null before it
 * @param steps takes and checks, in order
 * @param result what it came to; null while it goes on
 */
public record ClimbRecord(
        String schema,
        String id,
        String tool,
        String startedAt,
        @Nullable String endedAt,
        RunState state,
        String stateReason,
        Seed seed,
        Session session,
        Ladder ladder,
        Plan plan,
        DriveFacts drive,
        HostFacts host,
        @Nullable IoMode ioMode,
        @Nullable FillFacts fill,
        List<ClimbStep> steps,
        @Nullable ClimbResult result) {

    /** The schema written today. */
    public static final String SCHEMA = "tracksoak/climb-record/2";

    public ClimbRecord {
        steps = List.copyOf(steps);
    }

    /** What grows from rung to rung. */
    public enum Grows {
        TRACKS,
        SAMPLE_RATE
    }

    /**
     * The rungs.
     *
     * @param grows tracks, or the sample rate of all of them
     * @param least lowest value tried, in tracks or Hz
     * @param most highest value that would have been tried, in tracks or Hz
     * @param mostBecause why not more, one sentence
     */
    public record Ladder(Grows grows, int least, int most, String mostBecause) {}

    /**
     * How long each look was to take.
     *
     * @param shortTakeS length of a short take in s
     * @param fillCapS longest time of the fill before the takes, in s
     * @param check the plan of the sound-checks
     * @param shortened whether any time was below the plan's own
     * @param proveAbove whether a check must show that one rung more does not hold
     * @param askLoss whether it was also asked how far it goes before audio is lost
     */
    public record Plan(
            double shortTakeS, double fillCapS, Check check, boolean shortened, boolean proveAbove, boolean askLoss) {}

    /**
     * Times of the sound-checks.
     *
     * @param takeBeforeS length of the take before the fill in s
     * @param fillCapS longest time of the fill in s
     * @param takeAfterS length of the take after the fill in s
     */
    public record Check(double takeBeforeS, double fillCapS, double takeAfterS) {}
}
