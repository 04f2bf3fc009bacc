package tracksoak.report.roster.standing;

import java.time.Duration;
import tracksoak.profiles.Session;

/** How long a PASS counts. */
public final class Validity {

    /** Where the session says nothing: a quarter of a year. Common practice, no source. */
    public static final Duration DEFAULT = Duration.ofDays(90);

    private Validity() {}

    /** How long a PASS counts for a session. */
    public static Duration of(Session session) {
        return DEFAULT;
    }
}
