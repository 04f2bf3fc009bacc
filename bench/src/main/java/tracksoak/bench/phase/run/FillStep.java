package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.bench.phase.timeleft.Pace;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;
import tracksoak.report.stats.SteadyState;

/** Fills the room there is now, less what the steps after it need. */
final class FillStep implements Step {

    private final Bench bench;
    private final FilesOnDrive onDrive;
    private final String label;
    private final int pass;
    private final Budget expected;
    private @Nullable FillPhase fill;

    /**
     * A fill that looks for its room when its turn comes.
     *
     * @param expected the budget as it was before the run
     */
    FillStep(Bench bench, FilesOnDrive onDrive, String label, int pass, Budget expected) {
        this.bench = bench;
        this.onDrive = onDrive;
        this.label = label;
        this.pass = pass;
        this.expected = expected;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.FILL;
    }

    @Override
    public double expectedS(Forecast ahead) {
        Plan plan = bench.request.plan();
        FillPhase now = fill;
        if (now != null) {
            ahead.leaves(now.expectedBytes());
            return now.leftS();
        }
        double bytes = plan.wholeSpace() ? expected.fillBytes() : expected.fillWantedBytes();
        double byBytes = ahead.pace.secondsToWrite(bytes);
        if (byBytes < 0) {
            return Pace.UNKNOWN;
        }
        double seconds = Math.min(plan.fillCapS(), plan.wholeSpace() ? byBytes : untilSteadyS(bytes, byBytes));
        ahead.leaves(byBytes <= 0 ? 0 : bytes * seconds / byBytes);
        return seconds;
    }

    /** A fill that is too slow ends as soon as it is steady, any other once it has written what it should. */
    private double untilSteadyS(double bytes, double byBytes) {
        double least = SteadyState.ROUNDS * bench.request.plan().roundS();
        return bytes < FillPhase.needed(bench.request.session()) * byBytes ? least : Math.max(least, byBytes);
    }

    @Override
    public PhaseFacts go() {
        long[] usable = {0};
        PhaseFacts silent = bench.ask(PhaseKind.FILL, () -> usable[0] = bench.drive.usableBytes());
        if (silent != null) {
            return silent;
        }
        Budget budget = Budget.of(
                bench.request.session(),
                bench.request.plan().afterTakeBefore(),
                bench.drive.alignmentBytes(),
                usable[0],
                bench.request.reserveBytes());
        FillPhase now = new FillPhase(bench, label, pass, budget.fillBytes());
        fill = now;
        onDrive.opens(now.files());
        PhaseFacts facts = now.fill();
        if (facts.fault() == null) {
            onDrive.closed(now.files());
        }
        return facts;
    }
}
