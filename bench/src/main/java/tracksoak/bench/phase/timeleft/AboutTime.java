package tracksoak.bench.phase.timeleft;

/** A length of time rounded as a person would round it. */
public final class AboutTime {

    private static final long MINUTE_S = 60;
    private static final long HOUR_S = 3600;

    private AboutTime() {}

    /**
     * For example {@code about 25 min}: below a minute to 10 s, below 10 min to whole minutes, below an hour to 5 min, then to
     * quarters of an hour.
     *
     * @param s not negative, in s
     */
    public static String of(double s) {
        long rounded = rounded(s);
        if (rounded == 0) {
            return "a few seconds";
        }
        if (rounded < MINUTE_S) {
            return "about " + rounded + " s";
        }
        if (rounded < HOUR_S) {
            return "about " + rounded / MINUTE_S + " min";
        }
        long minutes = rounded % HOUR_S / MINUTE_S;
        return "about " + rounded / HOUR_S + " h" + (minutes == 0 ? "" : " " + minutes + " min");
    }

    private static long rounded(double s) {
        long tens = to(10, s);
        if (tens < MINUTE_S) {
            return tens;
        }
        long minutes = to(MINUTE_S, s);
        if (minutes < 10 * MINUTE_S) {
            return minutes;
        }
        long fives = to(5 * MINUTE_S, s);
        return fives < HOUR_S ? fives : to(HOUR_S / 4, s);
    }

    private static long to(long stepS, double s) {
        return Math.round(s / stepS) * stepS;
    }
}
