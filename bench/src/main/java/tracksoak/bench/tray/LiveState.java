package tracksoak.bench.tray;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.Progress;

/**
 * How a run gets on, as its own process says it.
 *
 * @param schema {@value #SCHEMA}
 * @param pid of its process, 0 before there is one
 * @param processMs when that process began, as epoch time in ms, 0 if not known: numbers of processes are used again
 * @param saidMs when this was said, as epoch time in ms
 * @param workedMs when it went to work, as epoch time in ms, 0 before
 * @param stage how far it is
 * @param waitsFor what it waits for, empty if for nothing
 * @param awake how the computer is kept awake, empty if it is not
 * @param progress the latest figures, null before there are any
 * @param backlogMs the largest backlog of each piece of time of the phase that goes on, in ms, the newest last
 * @param pieceMs length of such a piece, in ms
 * @param notes sentences worth knowing, in their order
 * @param outcome PASS, FAIL or NO VERDICT, empty before
 * @param sentence the verdict in one sentence, or what went wrong
 * @param todo what to do now, empty where there is nothing
 * @param disturbed whether it came to no verdict while other drives on its bus moved data
 * @param failedAlone whether it went wrong by what none of them decided
 * @param rosterDrive the drive's id in the roster, empty while the run is not entered there
 */
public record LiveState(
        String schema,
        long pid,
        long processMs,
        long saidMs,
        long workedMs,
        Stage stage,
        String waitsFor,
        String awake,
        @Nullable Progress progress,
        List<Double> backlogMs,
        long pieceMs,
        List<String> notes,
        String outcome,
        String sentence,
        String todo,
        boolean disturbed,
        boolean failedAlone,
        String rosterDrive) {

    static final String SCHEMA = "tracksoak/live-state/1";

    /** How far a run is. */
    public enum Stage {
        /** Its process is about to begin. */
        BEGINS,
        /** It waits for its turn. */
        WAITS,
        /** It works. */
        WORKS,
        /** It ended by itself: with a verdict, stopped, or with what went wrong. */
        OVER
    }

    public LiveState {
        backlogMs = List.copyOf(backlogMs);
        notes = List.copyOf(notes);
    }

    /** The same with other words about how it ended. */
    LiveState ended(String newOutcome, String newSentence, String newTodo) {
        return new LiveState(
                schema,
                pid,
                processMs,
                saidMs,
                workedMs,
                stage,
                waitsFor,
                awake,
                progress,
                backlogMs,
                pieceMs,
                notes,
                newOutcome,
                newSentence,
                newTodo,
                disturbed,
                failedAlone,
                rosterDrive);
    }

    static LiveState begins(long nowMs) {
        return new LiveState(
                SCHEMA,
                0,
                0,
                nowMs,
                0,
                Stage.BEGINS,
                "",
                "",
                null,
                List.of(),
                0,
                List.of(),
                "",
                "",
                "",
                false,
                false,
                "");
    }
}
