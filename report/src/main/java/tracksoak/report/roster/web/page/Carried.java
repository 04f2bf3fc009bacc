package tracksoak.report.roster.web.page;

import java.util.Locale;
import java.util.stream.Collectors;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;

/** What a session records, short enough for a label: {@code 32 tracks, 48 kHz, 24-bit}. Stateless. */
public final class Carried {

    private static final int HZ_PER_KHZ = 1_000;

    private Carried() {}

    public static String of(Session session) {
        if (session.groups().size() > 2) {
            return tracks(session.tracks());
        }
        return session.groups().stream().map(Carried::of).collect(Collectors.joining(" + "));
    }

    private static String of(TrackGroup group) {
        return tracks(group.tracks()) + ", " + khz(group.sampleRateHz()) + ", "
                + group.format().words();
    }

    private static String tracks(int tracks) {
        return tracks + (tracks == 1 ? " track" : " tracks");
    }

    private static String khz(int hz) {
        return hz % HZ_PER_KHZ == 0
                ? hz / HZ_PER_KHZ + " kHz"
                : String.format(Locale.ROOT, "%.1f kHz", hz / (double) HZ_PER_KHZ);
    }
}
