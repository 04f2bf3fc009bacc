package tracksoak.profiles.base;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.Locale;

/** Instants of a record as people read them, always in UTC. */
public final class Times {

    private static final DateTimeFormatter MINUTES =
            DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm 'UTC'", Locale.ROOT).withZone(ZoneOffset.UTC);

    private Times() {}

    /** {@code 2026-03-14 18:05 UTC}; anything that is no ISO-8601 instant comes back as it is. */
    public static String of(String instant) {
        try {
            return MINUTES.format(Instant.parse(instant));
        } catch (DateTimeParseException e) {
            return instant;
        }
    }
}
