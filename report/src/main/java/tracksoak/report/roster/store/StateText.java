package tracksoak.report.roster.store;

import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.FieldText;
import tracksoak.report.record.facts.Verdict;
import tracksoak.report.roster.identity.DriveIdentity;
import tracksoak.report.roster.standing.Claim;
import tracksoak.report.roster.standing.DriveState;
import tracksoak.report.roster.standing.LastRun;
import tracksoak.report.roster.standing.Mark;

/**
 * The state of a drive as text for the store: a list of thousands of drives in a new process is mostly the reading of these. It is never
 * exchanged, and made again where a newer program works out more.
 */
final class StateText {

    private StateText() {}

    static String write(DriveState state) {
        DriveIdentity identity = state.identity();
        LastRun last = state.lastRun();
        FieldText.Writer text = new FieldText.Writer().put(state.id()).put(identity == null ? null : "1");
        if (identity != null) {
            text.put(identity.maker())
                    .put(identity.model())
                    .put(identity.serial())
                    .put(identity.sizeBytes());
        }
        text.list(state.tags(), FieldText.Writer::put)
                .list(state.withdrawals(), StateText::claim)
                .list(state.marks(), StateText::mark)
                .put(state.records())
                .put(state.unsigned())
                .put(state.doubtful())
                .put(state.notes())
                .put(state.lastNote())
                .put(last == null ? null : last.sessionId());
        if (last != null) {
            text.put(last.session()).put(last.endedAtMs()).put(last.outcome().name());
        }
        return text.text();
    }

    private static void claim(FieldText.Writer text, Claim claim) {
        text.put(claim.ref()).put(claim.text()).put(claim.by()).put(claim.atMs());
    }

    private static void mark(FieldText.Writer text, Mark mark) {
        text.put(mark.pass())
                .put(mark.atMs())
                .put(mark.sessionId())
                .put(mark.all())
                .put(mark.ref())
                .put(mark.runId())
                .put(mark.paceMs())
                .put(mark.provenBytes());
    }

    /** @throws IllegalStateException if it is not what {@link #write} makes */
    static DriveState read(String text) {
        return FieldText.read(text, StateText::state);
    }

    private static DriveState state(FieldText.Reader text) {
        return new DriveState(
                text.said(),
                text.next() == null ? null : new DriveIdentity(text.next(), text.next(), text.next(), text.whole()),
                text.list(FieldText.Reader::said),
                text.list(one -> new Claim(one.said(), one.said(), one.said(), one.number())),
                text.list(StateText::mark),
                text.count(),
                text.count(),
                text.count(),
                text.count(),
                text.said(),
                last(text));
    }

    private static Mark mark(FieldText.Reader text) {
        return new Mark(
                text.flag(),
                text.number(),
                text.said(),
                text.flag(),
                text.said(),
                text.said(),
                text.number(),
                text.number());
    }

    private static @Nullable LastRun last(FieldText.Reader text) {
        String sessionId = text.next();
        if (sessionId == null) {
            return null;
        }
        String session = text.said();
        return new LastRun(text.number(), Verdict.Outcome.valueOf(text.said()), sessionId, session);
    }
}
