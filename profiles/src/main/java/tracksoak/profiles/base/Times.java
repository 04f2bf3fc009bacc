package tracksoak.profiles.base;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Instants as people read them, in UTC, the same on every computer. Stateless; any thread. */
public final class Times {

    private static final DateTimeFormatter DAY =
            DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT).withZone(ZoneOffset.UTC);
    private static final DateTimeFormatter MINUTE =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm 'UTC'", Locale.ROOT).withZone(ZoneOffset.UTC);

    private static final Instant FIRST = Instant.parse("2000-01-01T00:00:00Z");
    private static final Instant END = Instant.parse("2200-01-01T00:00:00Z");

    private Times() {}

    /** Whether something of ours can be of that time: 2000 to 2199. A clock whose battery is dead begins before that. */
    public static boolean possible(Instant at) {
        return !at.isBefore(FIRST) && at.isBefore(END);
    }

    /**
     * Refuses to begin what would be dated so, rather than to lose it at its end.
     *
     * @throws Problem if the clock is set to a time that is not {@link #possible}
     */
    public static void refuseWrongClock(Instant now) {
        if (!possible(now)) {
            throw Problem.cannot(
                    "this computer's clock says " + minute(now) + ", and what is dated so could not be kept",
                    "set the clock, then try again");
        }
    }

    /** {@code 2026-03-14}, empty for null. */
    public static String day(@Nullable Instant at) {
        return at == null ? "" : DAY.format(at);
    }

    /** {@code 2026-03-14 18:05 UTC}. */
    public static String minute(Instant at) {
        return MINUTE.format(at);
    }

    /** A place in a take, as a player shows it, to the millisecond: {@code 0:12:31.250}. */
    public static String playing(double seconds) {
        long ms = Math.round(seconds * 1000);
        return String.format(
                Locale.ROOT, "%d:%02d:%02d.%03d", ms / 3_600_000, ms / 60_000 % 60, ms / 1000 % 60, ms % 1000);
    }

    /** The same of an instant in a record; anything that is no ISO-8601 instant comes back as it is. */
    public static String minute(String instant) {
        try {
            return minute(Instant.parse(instant));
        } catch (DateTimeParseException e) {
            return instant;
        }
    }
}
