package tracksoak.bench.climb;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.Key;
import tracksoak.profiles.ProfileException;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionOverrides;

/** The sessions a climb goes through, each asking more than the one before. Rungs count from 1. Immutable. */
public final class Ladder {

    /** Sample rates in use, in Hz (multiples of those of AES5 practice). */
    private static final List<Integer> SAMPLE_RATES =
            List.of(44_100, 48_000, 88_200, 96_000, 176_400, 192_000, 352_800, 384_000);

    /** What grows from rung to rung. */
    public enum Kind {
        TRACKS,
        SAMPLE_RATE
    }

    private final Kind kind;
    private final List<Session> sessions;

    private Ladder(Kind kind, List<Session> sessions) {
        this.kind = kind;
        this.sessions = List.copyOf(sessions);
    }

    /**
     * One track more with every rung.
     *
     * @param base session with one kind of track
     * @param mostTracks highest number of tracks tried
     * @throws ProfileException if no number of tracks makes it a session
     */
    public static Ladder tracks(Session base, int mostTracks) {
        List<SessionOverrides> all = new ArrayList<>();
        for (int tracks = 1; tracks <= mostTracks; tracks++) {
            all.add(SessionOverrides.none().with(Key.COUNT, tracks));
        }
        return new Ladder(Kind.TRACKS, inARow(base, all));
    }

    /**
     * Usual sample rates from 44.1 kHz up, at the session's own number of tracks.
     *
     * @throws ProfileException if none of them makes it a session
     */
    public static Ladder sampleRates(Session base) {
        List<SessionOverrides> all = new ArrayList<>();
        for (int hz : SAMPLE_RATES) {
            all.add(SessionOverrides.none().with(Key.SAMPLE_RATE, hz));
        }
        return new Ladder(Kind.SAMPLE_RATE, inARow(base, all));
    }

    /** The first unbroken row of those that are sessions at all. */
    private static List<Session> inARow(Session base, List<SessionOverrides> all) {
        List<Session> row = new ArrayList<>();
        ProfileException refused = null;
        for (SessionOverrides each : all) {
            try {
                row.add(each.applyTo(base));
            } catch (ProfileException no) {
                if (!row.isEmpty()) {
                    break;
                }
                refused = no;
            }
        }
        if (row.isEmpty() && refused != null) {
            throw refused;
        }
        return row;
    }

    /** The lowest {@code rungs} of it. */
    public Ladder lowest(int rungs) {
        return new Ladder(kind, sessions.subList(0, Math.min(rungs, sessions.size())));
    }

    public Kind kind() {
        return kind;
    }

    /** Number of rungs. */
    public int size() {
        return sessions.size();
    }

    /** The session of a rung, from 1. */
    public Session session(int rung) {
        return sessions.get(rung - 1);
    }

    /** Tracks, or sample rate in Hz, of a rung. */
    public int value(int rung) {
        Session session = session(rung);
        return kind == Kind.TRACKS ? session.tracks() : session.groups().get(0).sampleRateHz();
    }

    /** The highest rung that asks for no more than {@code bytesPerSecond}; the lowest if all ask for more. */
    public int within(double bytesPerSecond) {
        int rung = 1;
        while (rung < size() && session(rung + 1).bytesPerSecond() <= bytesPerSecond) {
            rung++;
        }
        return rung;
    }
}
