package tracksoak.report.roster.standing;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PlanName;
import tracksoak.report.record.facts.RunRecord;
import tracksoak.report.record.facts.RunState;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.verdict.Judge;

/**
 * What the roster needs to know of a record without reading it again. The verdict counts only as far as it follows from the
 * record's own facts: they are judged again, and the stricter answer holds.
 *
 * @param sha256 names the record
 * @param runId id of the run
 * @param endedAtMs when the run ended, in ms since 1970
 * @param outcome PASS, FAIL or NO_VERDICT
 * @param doubt why the record's own verdict was not taken, empty where it was
 * @param plan name of the plan
 * @param shortened whether the plan was shortened
 * @param trusting whether a PASS of it makes a drive trusted: a complete, unshortened sound-check or full-show whose phases show it
 * @param everySession whether a FAIL of it ends trust for every session: data came back wrong, or the drive stopped answering
 * @param sessionId names the session with all it says, see {@link RecordedSession}
 * @param session the session's name
 * @param tracks tracks of the session
 * @param bytesPerSecond its demand in bytes per second
 * @param sentence the verdict in one sentence, harmless to look at
 * @param paceMs how long the drive was written, or played, at the session's pace, in ms
 * @param provenBytes bytes written and read back as they were
 * @param fileSystem the drive's file system, null if unknown
 * @param freeBytes free room before the run in bytes, null if unknown
 */
public record RecordDigest(
        String sha256,
        String runId,
        long endedAtMs,
        Verdict.Outcome outcome,
        String doubt,
        String plan,
        boolean shortened,
        boolean trusting,
        boolean everySession,
        String sessionId,
        String session,
        int tracks,
        long bytesPerSecond,
        String sentence,
        long paceMs,
        long provenBytes,
        @Nullable String fileSystem,
        @Nullable Long freeBytes) {

    /** The digest of a record. */
    public static RecordDigest of(RunRecord record, String sha256) {
        Verdict verdict = record.verdict();
        Verdict again = Judge.judge(record);
        boolean own =
                verdict != null && verdict.session().equals(record.session().name());
        Verdict.Outcome outcome =
                own && verdict != null ? stricter(verdict.outcome(), again.outcome()) : Verdict.Outcome.NO_VERDICT;
        boolean full = record.state() == RunState.COMPLETE
                && record.endedAt() != null
                && !record.plan().shortened()
                && record.plan().trusts();
        String doubt = doubt(verdict, own, outcome);
        if (doubt.isEmpty() && full && outcome == Verdict.Outcome.PASS) {
            doubt = PlanShown.doubt(record);
        }
        return new RecordDigest(
                sha256,
                record.id(),
                Instant.parse(dated(record)).toEpochMilli(),
                outcome,
                doubt,
                Inert.text(record.plan().name()),
                record.plan().shortened(),
                full && (outcome != Verdict.Outcome.PASS || doubt.isEmpty()),
                outcome == Verdict.Outcome.FAIL && Judge.gaveOut(record, again),
                RecordedSession.of(record.session()).id(),
                record.session().name(),
                record.session().tracks(),
                record.session().bytesPerSecond(),
                Inert.text((own && verdict != null && verdict.outcome() == outcome ? verdict : again).sentence()),
                PlanShown.paceMs(record),
                PlanShown.provenBytes(record),
                record.drive().fileSystem() == null
                        ? null
                        : Inert.text(record.drive().fileSystem()),
                record.drive().freeBytes());
    }

    /** Whether the whole capacity was proven. */
    public boolean wholeCapacity() {
        return trusting && plan.equals(PlanName.FULL_SHOW.word());
    }

    /** When it ended; of a simulated run, whose hours pass in seconds and end ahead of every clock, when it began. */
    private static String dated(RunRecord record) {
        String endedAt = record.endedAt();
        return endedAt == null || record.method().ioMode() == IoMode.SIMULATED ? record.startedAt() : endedAt;
    }

    private static String doubt(@Nullable Verdict verdict, boolean own, Verdict.Outcome outcome) {
        if (verdict == null) {
            return "The record holds no verdict.";
        }
        if (!own) {
            return "The record's verdict is for another session than the run was made for.";
        }
        return verdict.outcome() == outcome ? "" : "The record's verdict does not follow from its facts.";
    }

    private static Verdict.Outcome stricter(Verdict.Outcome one, Verdict.Outcome other) {
        if (one == Verdict.Outcome.FAIL || other == Verdict.Outcome.FAIL) {
            return Verdict.Outcome.FAIL;
        }
        return one == Verdict.Outcome.PASS ? other : one;
    }
}
