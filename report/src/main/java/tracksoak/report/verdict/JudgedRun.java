package tracksoak.report.verdict;

import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.Demand;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionKind;
import tracksoak.report.record.facts.CloseFacts;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.record.facts.RunRecord;

/** The facts of a run laid out for judging one session. Immutable. */
final class JudgedRun {

    final Session session;
    final RunRecord record;
    final Demand demand;
    final Carry carry;
    final List<PhaseFacts> takes;
    final @Nullable PhaseFacts fill;
    /** The close that took longest; one that did not finish only where none did. */
    final @Nullable PhaseFacts close;

    final List<PhaseFacts> readBacks;
    final @Nullable PhaseFacts playback;
    final @Nullable PhaseFacts copy;
    /** Phases at session rate that the session is about: takes of a recording, else the playback. */
    final List<PhaseFacts> paced;

    JudgedRun(Session session, RunRecord record) {
        this.session = session;
        this.record = record;
        this.demand = Demand.of(session);
        this.carry = Carry.of(record.session(), session);
        this.takes = phases(PhaseKind.TAKE).toList();
        this.fill = phases(PhaseKind.FILL).findFirst().orElse(null);
        this.close = phases(PhaseKind.CLOSE)
                .max(Comparator.comparingDouble(JudgedRun::closeMs))
                .orElse(null);
        this.readBacks = phases(PhaseKind.READ_BACK).toList();
        this.playback = phases(PhaseKind.PLAYBACK).findFirst().orElse(null);
        this.copy = phases(PhaseKind.COPY).findFirst().orElse(null);
        this.paced = plays() ? phases(PhaseKind.PLAYBACK).toList() : takes;
    }

    private static double closeMs(PhaseFacts phase) {
        CloseFacts close = phase.close();
        return close == null ? -1 : close.totalMs();
    }

    Stream<PhaseFacts> phases(PhaseKind kind) {
        return record.phasesOf(kind);
    }

    /** Phases that write flat out or at session rate. */
    Stream<PhaseFacts> written() {
        return record.phasesOf(PhaseKind.TAKE, PhaseKind.FILL, PhaseKind.COPY);
    }

    /** Whether the session is about playing back. */
    boolean plays() {
        return session.kind() == SessionKind.PLAYBACK || session.kind() == SessionKind.MIXDOWN;
    }

    /** Whether a criterion about time rests on the phase. */
    boolean timed(PhaseFacts phase) {
        return switch (phase.kind()) {
            case TAKE -> session.kind() == SessionKind.RECORDING;
            case FILL -> session.kind() == SessionKind.RECORDING;
            case COPY -> session.kind() == SessionKind.ARCHIVE;
            case CLOSE, PLAYBACK -> true;
            case READ_BACK, PROBES, KEEPSAKE -> false;
        };
    }

    /** What a sleep of the computer spoilt among these phases, as a sentence; null if it did not sleep. */
    @Nullable
    String slept(Stream<PhaseFacts> among) {
        return among.filter(phase -> Blame.slept(phase.hostDelays()))
                .findFirst()
                .map(phase -> "the computer slept during the " + Doubts.name(phase))
                .orElse(null);
    }

    /** Everything that crosses the port while the session runs, in B/s. */
    double bytesPerSecond() {
        return demand.bytesPerSecond();
    }

    double bufferMs() {
        return session.bufferS() * 1000;
    }

    /** The buffer the run dropped audio at, in ms. */
    double runBufferMs() {
        return record.session().bufferS() * 1000;
    }

    IoMode ioMode() {
        return record.method().ioMode();
    }

    int plannedTakes() {
        return (record.plan().takeBeforeS() > 0 ? 1 : 0) + (record.plan().takeAfterS() > 0 ? 1 : 0);
    }

    /** Whether every take planned was done to its end. */
    boolean takesDone() {
        return !takes.isEmpty()
                && takes.size() >= plannedTakes()
                && takes.stream().allMatch(PhaseFacts::complete);
    }

    /** Whether every phase at session rate was done to its end. */
    boolean pacedDone() {
        return plays() ? playback != null && playback.complete() : takesDone();
    }

    /** Whether the playback was as long as planned, give or take a second for files that end between two chunks. */
    boolean playedEnough() {
        return playback != null && playback.seconds() >= record.plan().playbackS() - 1;
    }

    /** Whether a fill of the whole free space came to its end. */
    boolean filledWhole() {
        FillFacts found = fill == null ? null : fill.fill();
        return found != null && found.ended() == FillFacts.Ended.FULL;
    }

    double takeSeconds() {
        return takes.stream().mapToDouble(PhaseFacts::seconds).sum();
    }

    boolean lostAudio() {
        return takes.stream().anyMatch(take -> take.lostMs() > 0);
    }
}
