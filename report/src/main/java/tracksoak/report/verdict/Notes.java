package tracksoak.report.verdict;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.RecorderBuffer;
import tracksoak.profiles.SessionKind;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;
import tracksoak.report.record.facts.FillFacts;
import tracksoak.report.record.facts.HostDelays;
import tracksoak.report.record.facts.IoMode;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.ReadyFacts;
import tracksoak.report.record.facts.RoundsFacts;
import tracksoak.report.record.facts.StartFacts;
import tracksoak.report.stats.RareEvents;

/** What the reader should know besides the verdict, one sentence each. */
final class Notes {

    private static final double CONFIDENCE = 0.95;
    private static final double USUAL_READY_S = 15;
    private static final double STANDBY_S = 20 * 60;

    private Notes() {}

    static List<String> of(JudgedRun run) {
        List<String> notes = new ArrayList<>();
        if (run.record.plan().shortened()) {
            notes.add("The run was shortened and never counts as a full "
                    + run.record.plan().name() + ".");
        }
        if (run.carry != Carry.SAME) {
            notes.add("The run was made for the session " + run.record.session().name() + " and is judged for "
                    + run.session.name() + ".");
        }
        if (run.session.bufferAssumed()) {
            notes.add("The recorder's buffer of " + Units.seconds(run.session.bufferS())
                    + " is a guess: measure yours and set it in the session, or give it with --buffer.");
        }
        RecorderBuffer.measured(run.session)
                .ifPresent(how -> notes.add("The recorder's buffer of " + Units.seconds(run.session.bufferS())
                        + " was measured " + how + "."));
        ready(run.record.ready(), notes);
        method(run, notes);
        rare(run, notes);
        asleep(run, notes);
        beyond(run, notes);
        cliff(run, notes);
        rounds(run, notes);
        return notes;
    }

    private static void ready(@Nullable ReadyFacts ready, List<String> notes) {
        if (ready != null) {
            double s = ready.usableS();
            notes.add(
                    "The drive took " + Units.seconds(s) + " from " + (ready.deviceSeen() ? "plug-in" : "being mounted")
                            + " to the first file written and flushed"
                            + (ready.deviceSeen()
                                    ? ", " + Units.seconds(ready.mountedS()) + " of it until it was mounted; "
                                            + (s > USUAL_READY_S ? "longer than " : "")
                                            + "10 to 15 s is usual at most (common practice, no source)."
                                    : "; when it was plugged in could not be seen."));
        }
    }

    private static void method(JudgedRun run, List<String> notes) {
        if (run.ioMode() == IoMode.WRITE_THROUGH) {
            String why = run.record.method().ioReason();
            notes.add("Writes went through the computer's memory to the drive" + (why.isEmpty() ? "" : " (" + why + ")")
                    + "; such figures are a little worse than the drive's own.");
        }
        if (run.ioMode() == IoMode.SIMULATED) {
            notes.add("The drive is simulated: this says nothing about any real drive.");
        }
        if (run.written().anyMatch(phase -> phase.device() == null && !LostAudio.stopped(phase))) {
            notes.add(
                    "The device has no byte counters here, so nothing independent confirms that the bytes reached it.");
        }
        if (run.written().anyMatch(phase -> Blame.foreignWrites(phase, run.ioMode()))) {
            notes.add("The device took far more bytes than Tracksoak wrote: another program used the drive meanwhile.");
        }
        long neighbours = Blame.neighbourBytes(run);
        if (neighbours > 0) {
            notes.add("Other drives on the same bus took and gave " + Units.bytes(neighbours) + " meanwhile.");
        }
        if (run.written().anyMatch(phase -> phase.hostDelays() == null)) {
            notes.add("The computer's own delays were not watched.");
        }
        for (PhaseFacts phase : run.record.phases()) {
            HostDelays host = phase.hostDelays();
            if (host != null && host.sleepKnown() && Math.abs(host.clockStepMs()) > Blame.MOST_SLEEP_MS) {
                notes.add("The computer's clock was set by " + Units.ms(Math.abs(host.clockStepMs()))
                        + " during the run; only the times of day are touched by that.");
                return;
            }
        }
    }

    /** What a short look can say about rare events: exact Poisson bound, Garwood 1936. */
    private static void rare(JudgedRun run, List<String> notes) {
        PhaseFacts take = run.takes.isEmpty() ? null : run.takes.get(run.takes.size() - 1);
        double hours = take == null ? 0 : take.seconds() / 3600;
        if (take == null || hours <= 0 || take.fault() != null) {
            return;
        }
        long stalls = take.stallCount();
        int counted = (int) Math.min(stalls, 1_000_000);
        double bound = RareEvents.countBound(counted, CONFIDENCE) / hours;
        String seen = stalls == 0 ? "No stall" : stalls == 1 ? "1 stall" : stalls + " stalls";
        long perHour = (long) Math.ceil(bound);
        notes.add(seen + " above " + Units.ms(run.record.session().stallLimitMs()) + " in the last take of "
                + Units.seconds(take.seconds()) + ". "
                + (stalls == 0
                        ? "Up to " + Count.of(perHour, "stall") + " an hour could still have been missed (95 %)."
                        : "If that is how it goes on, expect fewer than " + perHour + " an hour (95 %)."));
    }

    /** Disks in cases mostly go to standby within 10 to 20 min: common practice, no source. A shorter rest meets few asleep. */
    private static void asleep(JudgedRun run, List<String> notes) {
        double aloneS = run.takes.stream()
                .map(PhaseFacts::start)
                .filter(Objects::nonNull)
                .mapToDouble(StartFacts::idleBeforeS)
                .max()
                .orElse(0);
        if (aloneS > 0 && aloneS < STANDBY_S) {
            notes.add("Before its takes the drive was left alone for no more than " + Units.seconds(aloneS)
                    + ": if it falls asleep only later, what waking it costs was not met. A full-show leaves"
                    + " it alone for 21 min.");
        }
    }

    /** A second show on a drive is met only by a run that writes as much as two. */
    private static void beyond(JudgedRun run, List<String> notes) {
        double written = run.written().mapToDouble(PhaseFacts::bytes).sum();
        double show = (double) run.demand.dataBytes();
        if (run.fill != null && run.session.kind() == SessionKind.RECORDING && show < written && written < 2 * show) {
            notes.add("The run wrote " + Units.bytes((long) written) + ", and two shows write "
                    + Units.bytes((long) (2 * show))
                    + ": what the drive does only after more bytes than the run wrote was not met.");
        }
    }

    private static void rounds(JudgedRun run, List<String> notes) {
        for (PhaseFacts take : run.takes) {
            RoundsFacts rounds = take.rounds();
            if (rounds != null && rounds.deletedBytes() > 0) {
                notes.add("The take had room for " + Units.bytes(rounds.roomBytes())
                        + " only, so it went on in rounds: " + Units.bytes(rounds.deletedBytes())
                        + " of its oldest files were deleted as it went and could not be read back. Time spent"
                        + " deleting ("
                        + Units.ms(rounds.deletingMs()) + ") counts as Tracksoak's own delay.");
            }
        }
    }

    private static void cliff(JudgedRun run, List<String> notes) {
        PhaseFacts phase = run.fill;
        FillFacts fill = phase == null ? null : phase.fill();
        if (fill == null || fill.cliffAtBytes() == null) {
            return;
        }
        Double before = fill.rateBeforeBytesPerSecond();
        Double after = fill.rateAfterBytesPerSecond();
        notes.add("A fast cache gave out after " + Units.bytes(fill.cliffAtBytes())
                + (before == null || after == null ? "" : ": from " + Units.rate(before) + " to " + Units.rate(after))
                + ".");
    }
}
