package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.PlanFacts;
import tracksoak.report.record.facts.PlanName;

/**
 * What a run does; {@link Program} makes the steps of it. In order: take (if {@code takeBeforeS > 0}), fill (if {@code
 * fillCapS > 0}; it is read back and deleted at once if more is to be written), take (if {@code takeAfterS > 0}), copy (if {@code
 * copyS > 0}), read-back, playback (if {@code playbackS > 0}).
 *
 * @param name its name
 * @param takeBeforeS length of the take before the fill in s, 0 for none
 * @param fillCapS longest time the fill may take in s, 0 for no fill
 * @param takeAfterS length of the take after the fill in s; the only take of a line-check
 * @param takeMostS longest it may become in s if what the fill showed, or the odds for the show, ask for more
 * @param roundS length of one round of the fill in s; steady state is judged over five of them
 * @param shortened true if any of these is below the plan's own
 * @param wholeSpace whether the fill takes the whole free space but the reserve, instead of ending when it is steady
 * @param copyS length of the show copied on at full speed, in s of the session, 0 for none
 * @param copyCapS longest time the copy may take, in s
 * @param playbackS length of the playback in s, 0 for none
 * @param idleS how long the drive is left alone before each take, in s
 */
public record Plan(
        PlanName name,
        double takeBeforeS,
        double fillCapS,
        double takeAfterS,
        double takeMostS,
        double roundS,
        boolean shortened,
        boolean wholeSpace,
        double copyS,
        double copyCapS,
        double playbackS,
        double idleS) {

    /** Longest time anything may take, in s. */
    public static final double LONGEST_S = 24 * 3600;

    /** Length of a sound-check's take after the fill where nothing asks for more, in s. */
    public static final double USUAL_TAKE_S = 600;

    /** How long a plan leaves the drive alone before each take, in s. */
    public static final double USUAL_IDLE_S = 60;

    /** Disks in cases mostly go to standby within 10 to 20 min: common practice, no source. */
    private static final double STANDBY_S = 21 * 60;

    private static final double ROUND_S = 10;
    private static final double LEAST_FILL_S = 120;
    private static final double REFILL_S = 420;

    /** A plan of takes of fixed length and a fill that ends by itself. */
    public Plan(
            PlanName name, double takeBeforeS, double fillCapS, double takeAfterS, double roundS, boolean shortened) {
        this(name, takeBeforeS, fillCapS, takeAfterS, takeAfterS, roundS, shortened, false, 0, LONGEST_S, 0);
    }

    /** A plan that leaves the drive no time to rest. */
    public Plan(
            PlanName name,
            double takeBeforeS,
            double fillCapS,
            double takeAfterS,
            double takeMostS,
            double roundS,
            boolean shortened,
            boolean wholeSpace,
            double copyS,
            double copyCapS,
            double playbackS) {
        this(
                name,
                takeBeforeS,
                fillCapS,
                takeAfterS,
                takeMostS,
                roundS,
                shortened,
                wholeSpace,
                copyS,
                copyCapS,
                playbackS,
                0);
    }

    /** Take 2 min, close, read-back: nothing is obviously wrong. Never makes a drive trusted. */
    public static Plan lineCheck() {
        return new Plan(PlanName.LINE_CHECK, 0, 0, 120, ROUND_S, false).idle(USUAL_IDLE_S);
    }

    /**
     * Take 5 min, fill of what the session writes, read-back of all, delete, take of 10 min or as long as it needs to settle
     * what was seen, at most the session's length, close, read-back: cleared for this session. The fill may take as long as at the rate asked;
     * after it was deleted, what the session writes is written once more, for 7 min at most, so that the take lies in cells
     * that were used before.
     */
    public static Plan soundCheck(Session session) {
        double length = session.lengthS();
        double capS = Math.min(
                LONGEST_S, Math.max(LEAST_FILL_S, length / session.margins().rate()));
        return new Plan(
                PlanName.SOUND_CHECK,
                300,
                capS,
                USUAL_TAKE_S,
                Math.max(USUAL_TAKE_S, length),
                ROUND_S,
                false,
                false,
                0,
                LONGEST_S,
                0,
                USUAL_IDLE_S);
    }

    /**
     * Fill of the whole free space, read-back of all of it, delete, take of the session's full length, close, read-back:
     * trusted, capacity proven.
     */
    public static Plan fullShow(Session session) {
        double lengthS = session.lengthS();
        return new Plan(
                PlanName.FULL_SHOW,
                0,
                LONGEST_S,
                lengthS,
                lengthS,
                ROUND_S,
                false,
                true,
                0,
                LONGEST_S,
                0,
                USUAL_IDLE_S);
    }

    /** A fill and nothing else: how a climb brings the drive to steady state. */
    public static Plan climbFill(double capS) {
        return new Plan(PlanName.CLIMB_FILL, 0, capS, 0, 10, true);
    }

    /** A take and its close, not read back: one short look of a climb. */
    public static Plan climbTake(double seconds) {
        return new Plan(PlanName.CLIMB_TAKE, 0, 0, seconds, 10, true);
    }

    /** Whether what was written is read back at the end. */
    boolean readsBack() {
        return !name.ofClimb();
    }

    /**
     * The same plan with other durations, in s; null keeps the plan's own. It is marked shortened if any is below it. A take
     * whose length was given keeps to it.
     */
    public Plan withDurations(@Nullable Double beforeS, @Nullable Double capS, @Nullable Double afterS) {
        double before = beforeS == null ? takeBeforeS : beforeS;
        double cap = capS == null ? fillCapS : capS;
        double after = afterS == null ? takeAfterS : afterS;
        return new Plan(
                name,
                before,
                cap,
                after,
                afterS == null ? takeMostS : after,
                roundS,
                shortened || before < takeBeforeS || cap < fillCapS || after < takeAfterS,
                wholeSpace,
                copyS,
                copyCapS,
                playbackS,
                idleS);
    }

    /** The same plan with another time to rest before each take, in s; null keeps the plan's own. */
    public Plan withIdle(@Nullable Double seconds) {
        return seconds == null
                ? this
                : new Plan(
                        name,
                        takeBeforeS,
                        fillCapS,
                        takeAfterS,
                        takeMostS,
                        roundS,
                        shortened || seconds < idleS,
                        wholeSpace,
                        copyS,
                        copyCapS,
                        playbackS,
                        seconds);
    }

    private Plan idle(double seconds) {
        return new Plan(
                name,
                takeBeforeS,
                fillCapS,
                takeAfterS,
                takeMostS,
                roundS,
                shortened,
                wholeSpace,
                copyS,
                copyCapS,
                playbackS,
                seconds);
    }

    /** The plan as it suits a drive: a full-show leaves a spinning disk alone for as long as its standby may take. */
    public Plan on(DriveFacts drive) {
        return wholeSpace && idleS >= USUAL_IDLE_S && Boolean.TRUE.equals(drive.rotational())
                ? idle(Math.max(idleS, STANDBY_S))
                : this;
    }

    /** Longest time of the second fill, in s; 0 for none. A take whose length was given asks for no more than was given. */
    public double refillCapS() {
        return name == PlanName.SOUND_CHECK && takeMostS > takeAfterS && fillCapS > 0
                ? Math.min(fillCapS, REFILL_S)
                : 0;
    }

    /** Whether each take changes to other files in its middle, where it would not do so by itself. */
    boolean changesFile() {
        return name == PlanName.SOUND_CHECK;
    }

    /**
     * The plan as it suits a kind of session; a plan that suits already stays as it is. A recording is taken. For a
     * playback or a mixdown the tracks are copied on, for as long as the take would be, and played. For an archive the
     * show is copied on, for as long as the fill (else the take) may last.
     */
    public Plan fitting(Session session) {
        double cap = wholeSpace ? fillCapS : 0;
        if (takeAfterS <= 0) {
            return this;
        }
        return switch (session.kind()) {
            case RECORDING -> this;
            case PLAYBACK, MIXDOWN ->
                new Plan(name, 0, cap, 0, 0, roundS, shortened, wholeSpace, takeAfterS, LONGEST_S, takeAfterS, idleS);
            case ARCHIVE -> {
                double most = wholeSpace ? LONGEST_S : fillCapS > 0 ? fillCapS : takeAfterS;
                yield new Plan(name, 0, cap, 0, 0, roundS, shortened, wholeSpace, session.lengthS(), most, 0, idleS);
            }
        };
    }

    /** The same plan with a playback of so many s after its last take. */
    public Plan withPlayback(double seconds) {
        return new Plan(
                name,
                takeBeforeS,
                fillCapS,
                takeAfterS,
                takeMostS,
                roundS,
                shortened,
                wholeSpace,
                copyS,
                copyCapS,
                seconds,
                idleS);
    }

    /** What the record says of it. */
    public PlanFacts facts(long bytesPlanned) {
        return new PlanFacts(
                name.word(),
                shortened,
                takeBeforeS,
                fillCapS,
                takeAfterS,
                idleS,
                bytesPlanned,
                null,
                wholeSpace,
                copyS,
                copyS > 0 ? copyCapS : 0,
                playbackS,
                0,
                "");
    }
}
