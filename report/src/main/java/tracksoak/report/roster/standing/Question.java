package tracksoak.report.roster.standing;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionOrder;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Times;

/**
 * "What is this drive worth for this session, now?" Asked of any number of drives; what does not depend on the drive is worked out once.
 * Immutable; any thread.
 */
public final class Question {

    /** How far another computer's clock may be ahead before a record counts as dated in the future. */
    public static final Duration CLOCKS_DIFFER = Duration.ofHours(1);

    private static final long CLOCKS_DIFFER_MS = CLOCKS_DIFFER.toMillis();
    private static final long MINUTE_MS = 60_000;
    private static final String UNCOVERED = "No full PASS on record covers this session";

    private final Instant now;
    private final long latestMs;
    private final Duration validity;
    private final long validityMs;
    private final Evidence nothing;
    private final Set<String> passes = new HashSet<>();
    /** Sessions whose FAIL says nothing of this one; a FAIL for one that is not known here counts. */
    private final Set<String> unrelated = new HashSet<>();

    private final Map<String, String> shortfalls = new HashMap<>();

    private Question(Session session, Instant now) {
        this.now = now;
        this.latestMs = now.plus(CLOCKS_DIFFER).toEpochMilli();
        this.validity = Duration.ofDays(session.validDays());
        this.validityMs = validity.toMillis();
        this.nothing = new Evidence(0, session.lengthS() * 1000, 0, session.bytesPerSecond() * session.lengthS());
    }

    /**
     * The question.
     *
     * @param session the session asked about
     * @param known all sessions that records were made for
     * @param now today
     */
    public static Question of(Session session, Collection<RecordedSession> known, Instant now) {
        Question question = new Question(session, now);
        for (RecordedSession one : known) {
            List<String> falls = SessionOrder.shortOf(one.session(), session);
            if (falls.isEmpty()) {
                question.passes.add(one.id());
            } else {
                question.shortfalls.put(
                        one.id(),
                        UNCOVERED + ": the one for " + Inert.text(one.session().name()) + " falls short in "
                                + listed(falls) + ".");
            }
            if (!SessionOrder.covers(session, one.session()) && !SessionOrder.asksAsMuch(session, one.session())) {
                question.unrelated.add(one.id());
            }
        }
        return question;
    }

    private static String listed(List<String> falls) {
        int last = falls.size() - 1;
        return last == 0 ? falls.get(0) : String.join(", ", falls.subList(0, last)) + " and " + falls.get(last);
    }

    /** The answer for a drive. */
    public SessionStanding ask(DriveState drive) {
        if (!drive.withdrawals().isEmpty()) {
            return withdrawn(drive);
        }
        List<Mark> counted = new ArrayList<>();
        Set<String> failedRuns = new HashSet<>();
        Mark fail = null;
        Mark other = null;
        Mark ahead = null;
        for (Mark mark : drive.marks()) {
            if (!mark.pass() && (mark.all() || !unrelated.contains(mark.sessionId()))) {
                fail = mark;
                failedRuns.add(mark.runId());
            } else if (mark.pass() && !future(mark)) {
                if (passes.contains(mark.sessionId())) {
                    counted.add(mark);
                } else {
                    other = mark;
                }
            } else if (mark.pass() && ahead == null && passes.contains(mark.sessionId())) {
                ahead = mark;
            }
        }
        TimeSpan holds = span(drive);
        if (fail != null) {
            long failedAt = fail.atMs();
            counted.removeIf(mark -> mark.atMs() <= failedAt || failedRuns.contains(mark.runId()));
        }
        if (!counted.isEmpty()) {
            Collections.reverse(counted);
            return passed(counted, holds);
        }
        if (fail != null) {
            return failed(fail, failedRuns.contains(ahead == null ? "" : ahead.runId()) ? null : ahead, holds);
        }
        return SessionStanding.unproven(
                ahead == null ? unproven(other) : "No full PASS counts yet." + notYet(ahead), holds);
    }

    private static String notYet(@Nullable Mark ahead) {
        return ahead == null
                ? ""
                : " A full PASS that covers this session is dated in the future, on "
                        + Times.day(Instant.ofEpochMilli(ahead.atMs())) + ", and does not count until then.";
    }

    private String unproven(@Nullable Mark other) {
        String falls = other == null ? null : shortfalls.get(other.sessionId());
        return falls == null ? UNCOVERED + "." : falls;
    }

    /** How long the answer stays: until a record comes of age, or a PASS becomes too old. */
    private TimeSpan span(DriveState drive) {
        TimeSpan.Changes changes = new TimeSpan.Changes(now);
        for (Mark mark : drive.marks()) {
            changes.from(mark.atMs() - CLOCKS_DIFFER_MS);
            if (mark.pass()) {
                changes.after(mark.atMs() + validityMs);
            }
        }
        return changes.none();
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
                null,
                "Withdrawn by " + first.by() + ": " + first.text(),
                TimeSpan.ALWAYS);
    }

    private SessionStanding failed(Mark fail, @Nullable Mark ahead, TimeSpan holds) {
        String future = future(fail) ? " It is dated in the future: that computer's clock is wrong." : "";
        return new SessionStanding(
                Standing.FAILED,
                Instant.ofEpochMilli(fail.atMs()),
                null,
                fail.ref(),
                false,
                null,
                "A run on " + Times.day(Instant.ofEpochMilli(fail.atMs())) + " failed"
                        + (fail.all()
                                ? " with wrong data or a drive that stopped, which ends trust for every session"
                                : "")
                        + ", and no full PASS for this session "
                        + (ahead == null ? "" : "that counts ") + "came after it." + future
                        + notYet(ahead),
                holds);
    }

    /** @param counted the PASSes that cover the session and came after what speaks against it, the latest first */
    private SessionStanding passed(List<Mark> counted, TimeSpan holds) {
        Mark latest = counted.get(0);
        if (old(latest)) {
            return new SessionStanding(
                    Standing.DUE,
                    until(latest),
                    until(latest),
                    latest.ref(),
                    latest.all(),
                    null,
                    "The last full PASS is older than " + validity.toDays() + " days: test again.",
                    holds);
        }
        List<Mark> young = runs(counted);
        Evidence all = nothing;
        Mark enough = null;
        for (Mark mark : young) {
            all = all.and(mark);
            if (enough == null && (mark.all() || all.enough())) {
                enough = mark;
            }
        }
        boolean whole = young.stream().anyMatch(Mark::all);
        Mark decides = enough != null && enough.all() ? enough : latest;
        return new SessionStanding(
                enough == null ? Standing.CLEARED : Standing.TRUSTED,
                Instant.ofEpochMilli(decides.atMs()),
                until(enough == null ? latest : enough),
                decides.ref(),
                whole,
                all,
                why(young.size(), all, enough, whole),
                holds);
    }

    private static String why(int runs, Evidence all, @Nullable Mark enough, boolean whole) {
        String capacity = whole ? ", and the whole capacity is proven." : ".";
        if (enough == null) {
            return (runs == 1 ? "A full PASS covers" : runs + " full PASSes cover") + " this session: "
                    + all.paceMs() / MINUTE_MS + " min were seen at its pace. Still needed to be trusted: "
                    + all.wanting() + capacity;
        }
        return "The session's whole length at its pace and its bytes are proven"
                + (enough.all() || runs == 1 ? ", by one run" : ", by " + runs + " runs together") + capacity;
    }

    /** Those that are not too old, one of each run: of several records of one run the latest. */
    private List<Mark> runs(List<Mark> counted) {
        Set<String> seen = new HashSet<>();
        return counted.stream()
                .filter(mark -> !old(mark) && seen.add(mark.runId()))
                .toList();
    }

    private Instant until(Mark pass) {
        return Instant.ofEpochMilli(pass.atMs()).plus(validity);
    }

    private boolean old(Mark pass) {
        return now.isAfter(until(pass));
    }

    private boolean future(Mark mark) {
        return mark.atMs() > latestMs;
    }
}
