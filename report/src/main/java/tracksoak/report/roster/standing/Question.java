package tracksoak.report.roster.standing;

import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.HashSet;
import java.util.Set;
import tracksoak.profiles.Session;

/**
 * "What is this drive worth for this session, now?" Asked of any number of drives; what does not depend on the drive is worked out once.
 * Immutable; any thread.
 */
public final class Question {

    /** How far another computer's clock may be ahead before a record counts as dated in the future. */
    public static final Duration CLOCKS_DIFFER = Duration.ofHours(1);

    private final Instant now;
    private final Duration validity;
    private final Set<String> passes = new HashSet<>();
    private final Set<String> misses = new HashSet<>();

    private Question(Instant now, Duration validity) {
        this.now = now;
        this.validity = validity;
    }

    /**
     * The question.
     *
     * @param session the session asked about
     * @param known all sessions that records were made for
     * @param now today
     */
    public static Question of(Session session, Collection<RecordedSession> known, Instant now) {
        Question question = new Question(now, Duration.ofDays(session.validDays()));
        for (RecordedSession one : known) {
            if (SessionOrder.covers(one.session(), session)) {
                question.passes.add(one.id());
            }
            if (SessionOrder.covers(session, one.session())) {
                question.misses.add(one.id());
            }
        }
        return question;
    }

    /** The answer for a drive. */
    public SessionStanding ask(DriveState drive) {
        if (!drive.withdrawals().isEmpty()) {
            return withdrawn(drive);
        }
        Mark pass = null;
        Mark fail = null;
        for (Mark mark : drive.marks()) {
            if (!mark.pass() && (mark.all() || misses.contains(mark.sessionId()))) {
                fail = mark;
            } else if (mark.pass() && passes.contains(mark.sessionId()) && !future(mark)) {
                pass = mark;
            }
        }
        if (fail != null && (pass == null || fail.atMs() >= pass.atMs())) {
            return failed(fail);
        }
        return pass == null
                ? new SessionStanding(
                        Standing.UNPROVEN, null, null, null, false, "No full PASS on record covers this session.")
                : passed(pass);
    }

    /** The answer for a drive with a withdrawal, whatever the session. */
    public static SessionStanding withdrawn(DriveState drive) {
        Claim first = drive.withdrawals().get(0);
        return new SessionStanding(
                Standing.WITHDRAWN,
                Instant.ofEpochMilli(first.atMs()),
                null,
                first.ref(),
                false,
                "Withdrawn by " + first.by() + ": " + first.text());
    }

    private SessionStanding failed(Mark fail) {
        String future = future(fail) ? " It is dated in the future: that computer's clock is wrong." : "";
        return new SessionStanding(
                Standing.FAILED,
                Instant.ofEpochMilli(fail.atMs()),
                null,
                fail.ref(),
                false,
                (fail.all()
                                ? "The last run failed with wrong data or a drive that stopped, which ends trust for every session."
                                : "A run failed, and no full PASS came after it.")
                        + future);
    }

    private SessionStanding passed(Mark pass) {
        Instant at = Instant.ofEpochMilli(pass.atMs());
        Instant until = at.plus(validity);
        boolean due = now.isAfter(until);
        return new SessionStanding(
                due ? Standing.DUE : Standing.TRUSTED,
                due ? until : at,
                until,
                pass.ref(),
                pass.all(),
                due
                        ? "The last full PASS is older than " + validity.toDays() + " days: test again."
                        : "A full PASS covers this session"
                                + (pass.all() ? ", and the whole capacity is proven." : "."));
    }

    private boolean future(Mark mark) {
        return mark.atMs() > now.plus(CLOCKS_DIFFER).toEpochMilli();
    }
}
