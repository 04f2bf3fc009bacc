package tracksoak.bench.phase;

/**
 * What a run does, in order: take (if {@code takeBeforeS > 0}), fill (if {@code fillCapS > 0}), take, close, read-back.
 *
 * @param name {@code line-check}, {@code sound-check} or {@code full-show}
 * @param takeBeforeS length of the take before the fill in s, 0 for none
 * @param fillCapS longest time the fill may take in s, 0 for no fill
 * @param takeAfterS length of the take after the fill in s; the only take of a line-check
 * @param roundS length of one round of the fill in s; steady state is judged over five of them
 * @param shortened true if any of these is below the plan's own
 */
public record Plan(
        String name, double takeBeforeS, double fillCapS, double takeAfterS, double roundS, boolean shortened) {

    /** Take 2 min, close, read-back: nothing is obviously wrong. Never makes a drive trusted. */
    public static Plan lineCheck() {
        return new Plan("line-check", 0, 0, 120, 10, false);
    }

    /** Take 5 min, fill until steady state, take 10 min, close, read-back: trusted for this session. */
    public static Plan soundCheck() {
        return new Plan("sound-check", 300, 3600, 600, 10, false);
    }

    /**
     * The same plan with other durations, in s; null keeps the plan's own. It is marked shortened if any is below it.
     */
    public Plan withDurations(
            @org.jspecify.annotations.Nullable Double beforeS,
            @org.jspecify.annotations.Nullable Double capS,
            @org.jspecify.annotations.Nullable Double afterS) {
        double before = beforeS == null ? takeBeforeS : beforeS;
        double cap = capS == null ? fillCapS : capS;
        double after = afterS == null ? takeAfterS : afterS;
        return new Plan(
                name,
                before,
                cap,
                after,
                roundS,
                shortened || before < takeBeforeS || cap < fillCapS || after < takeAfterS);
    }
}
