package tracksoak.report.roster.web.page;

import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;
import tracksoak.profiles.base.Count;

/** What a session records, short enough for a label: {@code 32 tracks, 48 kHz, 24-bit}. Stateless. */
public final class Carried {

    private Carried() {}

    public static String of(Session session) {
        return session.groups().size() > 2 ? Count.of(session.tracks(), "track") : TrackGroup.words(session.groups());
    }
}
