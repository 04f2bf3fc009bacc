package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
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
 * @param standbyS how long at least before the first, in s, so that one that falls asleep is met asleep once
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
        double idleS,
        double standbyS) {

    /** Longest time anything may take, in s. */
    public static final double LONGEST_S = 24 * 3600;

    /** Length of a sound-check's take after the fill where nothing asks for more, in s. */
    public static final double USUAL_TAKE_S = 600;

    /** How long a plan leaves the drive alone before a take, in s. */
    public static final double USUAL_IDLE_S = 60;

    /**
     * How long a sound-check leaves it alone before its first take, in s, and before the one after the fills: what stops by the clock hides in a
     * rest between two phases and in none before them.
     */
    private static final double FIRST_IDLE_S = 110;

    private static final double SHORT_IDLE_S = 10;

    /** How long it leaves a drive alone that a fill has made slow, as it would be before a show, in s. */
    public static final double LONG_IDLE_S = 3600;

    /** Disks in cases mostly go to standby within 10 to 20 min: common practice, no source. */
    private static final double STANDBY_S = 21 * 60;

    private static final double ROUND_S = 10;
    private static final double LEAST_FILL_S = 120;
    private static final double REFILL_S = 420;

    /** A plan that does nothing yet, in rounds of 10 s, and leaves the drive no time to rest. */
    public static Draft named(PlanName name) {
        return new Draft(name);
    }

    /** The same plan to be changed part by part. */
    public Draft but() {
        return new Draft(this);
    }

    /** Take 2 min, close, read-back: nothing is obviously wrong. Never makes a drive trusted. */
    public static Plan lineCheck() {
        return named(PlanName.LINE_CHECK).takeAfter(120).idle(USUAL_IDLE_S).plan();
    }

    /**
     * Take 5 min, fill of what the session writes, read-back of all, delete, take of 10 min or as long as it needs to settle
     * what was seen, at most the session's length, close, read-back: cleared for this session. The fill may take as long as at the rate asked;
     * after it was deleted, twice as much is written once more, for 7 min at most, so that the take lies in cells that were used
     * before, and what comes by more bytes than a show writes is met.
     */
    public static Plan soundCheck(Session session) {
        double length = session.lengthS();
        double capS = Math.min(
                LONGEST_S, Math.max(LEAST_FILL_S, length / session.margins().rate()));
        return named(PlanName.SOUND_CHECK)
                .takeBefore(300)
                .fillCap(capS)
                .takeAfter(USUAL_TAKE_S)
                .takeMost(Math.max(USUAL_TAKE_S, length))
                .idle(SHORT_IDLE_S)
                .standby(FIRST_IDLE_S)
                .plan();
    }

    /**
     * Fill of the whole free space, read-back of all of it, delete, take of the session's full length, close, read-back:
     * trusted, capacity proven.
     */
    public static Plan fullShow(Session session) {
        return named(PlanName.FULL_SHOW)
                .fillCap(LONGEST_S)
                .takeAfter((double) session.lengthS())
                .wholeSpace()
                .idle(USUAL_IDLE_S)
                .plan();
    }

    /** A fill and nothing else: how a climb brings the drive to steady state. */
    public static Plan climbFill(double capS) {
        return named(PlanName.CLIMB_FILL).fillCap(capS).shortened().plan();
    }

    /** A take and its close, not read back: one short look of a climb. */
    public static Plan climbTake(double seconds) {
        return named(PlanName.CLIMB_TAKE).takeAfter(seconds).shortened().plan();
    }

    /** Whether what was written is read back at the end. */
    public boolean readsBack() {
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
        Draft draft = but().takeBefore(before).fillCap(cap);
        if (afterS != null) {
            draft.takeAfter(after);
        }
        return (before < takeBeforeS || cap < fillCapS || after < takeAfterS ? draft.shortened() : draft).plan();
    }

    /** The same plan with another time to rest before each take, in s; null, and what it has before the last, keeps the plan's own. */
    public Plan withIdle(@Nullable Double seconds) {
        if (seconds == null || seconds == idleS) {
            return this;
        }
        Draft draft = but().idle(seconds).standby(0);
        return (seconds < firstIdleS() ? draft.shortened() : draft).plan();
    }

    /**
     * The plan as it suits a drive: a full-show leaves any drive alone for as long as the standby of a disk may take, a
     * sound-check only what spins.
     */
    public Plan on(DriveFacts drive) {
        boolean maySleep = wholeSpace || (name == PlanName.SOUND_CHECK && Boolean.TRUE.equals(drive.rotational()));
        return maySleep && firstIdleS() >= USUAL_IDLE_S
                ? but().standby(STANDBY_S).plan()
                : this;
    }

    /** How long it leaves the drive alone before its first take, in s. */
    public double firstIdleS() {
        return Math.max(idleS, standbyS);
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
        if (takeAfterS <= 0 || session.kind() == SessionKind.RECORDING) {
            return this;
        }
        Draft draft = but().takeBefore(0).fillCap(wholeSpace ? fillCapS : 0).takeAfter(0);
        return session.kind() == SessionKind.ARCHIVE
                ? draft.copy((double) session.lengthS(), wholeSpace ? LONGEST_S : fillCapS > 0 ? fillCapS : takeAfterS)
                        .plan()
                : draft.copy(takeAfterS, LONGEST_S).playback(takeAfterS).plan();
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

    /** A plan being made, part by part. One thread. */
    public static final class Draft {

        private final PlanName name;
        private double takeBeforeS;
        private double fillCapS;
        private double takeAfterS;
        private double takeMostS;
        private double roundS = ROUND_S;
        private boolean shortened;
        private boolean wholeSpace;
        private double copyS;
        private double copyCapS = LONGEST_S;
        private double playbackS;
        private double idleS;
        private double standbyS;

        private Draft(PlanName name) {
            this.name = name;
        }

        private Draft(Plan plan) {
            name = plan.name;
            takeBeforeS = plan.takeBeforeS;
            fillCapS = plan.fillCapS;
            takeAfterS = plan.takeAfterS;
            takeMostS = plan.takeMostS;
            roundS = plan.roundS;
            shortened = plan.shortened;
            wholeSpace = plan.wholeSpace;
            copyS = plan.copyS;
            copyCapS = plan.copyCapS;
            playbackS = plan.playbackS;
            idleS = plan.idleS;
            standbyS = plan.standbyS;
        }

        /** Length of the take before the fill, in s. */
        public Draft takeBefore(double seconds) {
            takeBeforeS = seconds;
            return this;
        }

        /** Longest time of the fill, in s. */
        public Draft fillCap(double seconds) {
            fillCapS = seconds;
            return this;
        }

        /** Length of one round of the fill, in s. */
        public Draft round(double seconds) {
            roundS = seconds;
            return this;
        }

        /** Length of the take after the fill, in s; it keeps to it. */
        public Draft takeAfter(double seconds) {
            takeAfterS = seconds;
            takeMostS = seconds;
            return this;
        }

        /** Longest that take may become, in s. */
        public Draft takeMost(double seconds) {
            takeMostS = seconds;
            return this;
        }

        /** Marks it as shorter than the plan of this name. */
        public Draft shortened() {
            shortened = true;
            return this;
        }

        /** Lets the fill take the whole free space. */
        public Draft wholeSpace() {
            wholeSpace = true;
            return this;
        }

        /** A copy of so many s of the session, that may take so long in s. */
        public Draft copy(double seconds, double capS) {
            copyS = seconds;
            copyCapS = capS;
            return this;
        }

        /** Length of the playback, in s. */
        public Draft playback(double seconds) {
            playbackS = seconds;
            return this;
        }

        /** How long the drive is left alone before each take, in s. */
        public Draft idle(double seconds) {
            idleS = seconds;
            return this;
        }

        /** How long at least before the first take, in s. */
        public Draft standby(double seconds) {
            standbyS = seconds;
            return this;
        }

        /** The plan. */
        public Plan plan() {
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
                    idleS,
                    standbyS);
        }
    }
}
