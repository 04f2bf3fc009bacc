package tracksoak.report.record.json;

import java.util.List;
import java.util.regex.Pattern;
import tracksoak.profiles.Session;
import tracksoak.profiles.TrackGroup;

/** Bounds of a session inside a record, so that no figure overflows later. Wide on purpose: the profile reader is stricter. */
final class SessionCheck {

    static final int MOST_TRACKS = 10_000;
    static final long LEAST_FILE = 1_000_000;
    static final int MOST_GROUPS = 1_000;
    static final int MOST_HZ = 10_000_000;
    static final int MOST_CHUNK = 1 << 30;
    static final int MOST_WRITERS = 10_000;
    static final int MOST_DAYS = 3650;
    static final long MOST_SPACE = 1L << 40;
    static final long MOST_SECONDS = 366L * 24 * 3600;
    private static final Pattern NAME = Pattern.compile("[a-z0-9-]{1,100}");

    interface Require {
        void require(boolean fine, String where, Object value, String allowed);
    }

    private SessionCheck() {}

    static void check(Session session, Require check) {
        check.require(
                NAME.matcher(session.name()).matches(),
                "session.name",
                RecordCheck.brief(session.name()),
                "[a-z0-9-]+");
        check.require(!session.groups().isEmpty(), "session.groups", "empty", "at least one group");
        groups("session.groups", session.groups(), check);
        groups("session.mix", session.mix(), check);
        check.require(
                session.tracks() <= MOST_TRACKS,
                "session.groups",
                session.tracks() + " tracks",
                "at most " + MOST_TRACKS);
        within(check, "session.lengthS", session.lengthS(), 1, MOST_SECONDS);
        within(check, "session.chunkBytes", session.chunkBytes(), 1, MOST_CHUNK);
        within(check, "session.writers", session.writers(), 1, MOST_WRITERS);
        check.require(
                session.bufferS() > 0 && session.bufferS() <= 3600,
                "session.bufferS",
                session.bufferS(),
                "above 0, at most 3600 s");
        check.require(
                session.flushS() <= MOST_SECONDS, "session.flushS", session.flushS(), "at most " + MOST_SECONDS + " s");
        check.require(
                session.headerS() <= MOST_SECONDS,
                "session.headerS",
                session.headerS(),
                "at most " + MOST_SECONDS + " s");
        check.require(
                session.spaceInAdvanceBytes() <= MOST_SPACE,
                "session.spaceInAdvanceBytes",
                session.spaceInAdvanceBytes(),
                "at most " + MOST_SPACE + " B");
        check.require(
                session.fileLimitBytes() >= LEAST_FILE,
                "session.fileLimitBytes",
                session.fileLimitBytes(),
                "at least " + LEAST_FILE + " B");
        check.require(session.stallLimitMs() >= 1, "session.stallLimitMs", session.stallLimitMs(), "at least 1 ms");
        check.require(session.risk() > 0 && session.risk() <= 1, "session.risk", session.risk(), "above 0, at most 1");
        within(check, "session.validDays", session.validDays(), 1, MOST_DAYS);
    }

    private static void groups(String at, List<TrackGroup> groups, Require check) {
        check.require(groups.size() <= MOST_GROUPS, at, groups.size() + " groups", "at most " + MOST_GROUPS);
        for (TrackGroup group : groups) {
            within(check, at + ".tracks", group.tracks(), 1, MOST_TRACKS);
            within(check, at + ".sampleRateHz", group.sampleRateHz(), 1, MOST_HZ);
        }
    }

    private static void within(Require check, String at, long value, long least, long most) {
        check.require(value >= least && value <= most, at, value, least + " to " + most);
    }
}
