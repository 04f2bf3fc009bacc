package tracksoak.bench.phase.run;

import org.jspecify.annotations.Nullable;
import tracksoak.bench.phase.timeleft.Forecast;
import tracksoak.report.record.facts.PhaseFacts;
import tracksoak.report.record.facts.PhaseKind;

/** Copies the show on, one file after another, as fast as the drive takes it. */
final class CopyStep implements Step {

    private final Bench bench;
    private final FilesOnDrive onDrive;
    private final int pass;
    private final Budget expected;
    private @Nullable FillPhase copy;

    /**
     * A copy that looks for its room when its turn comes.
     *
     * @param expected the budget as it was before the run
     */
    CopyStep(Bench bench, FilesOnDrive onDrive, int pass, Budget expected) {
        this.bench = bench;
        this.onDrive = onDrive;
        this.pass = pass;
        this.expected = expected;
    }

    @Override
    public PhaseKind kind() {
        return PhaseKind.COPY;
    }

    @Override
    public double expectedS(Forecast ahead) {
        FillPhase now = copy;
        if (now != null) {
            ahead.leaves(now.expectedBytes());
            return now.leftS();
        }
        double seconds = ahead.pace.secondsToWrite((double) expected.copyBytes());
        if (seconds <= 0) {
            return seconds;
        }
        double capped = Math.min(seconds, bench.request.plan().copyCapS());
        ahead.leaves(expected.copyBytes() * capped / seconds);
        return capped;
    }

    @Override
    public PhaseFacts go() {
        long[] usable = {0};
        PhaseFacts silent = bench.ask(PhaseKind.COPY, () -> usable[0] = bench.drive.usableBytes());
        if (silent != null) {
            return silent;
        }
        long room = Math.max(0, usable[0] - bench.request.reserveBytes() - expected.mixBytes());
        FillPhase now = FillPhase.copy(bench, "copy", pass, room);
        copy = now;
        onDrive.opens(now.files());
        PhaseFacts facts = now.fill();
        if (facts.fault() == null) {
            onDrive.closed(now.files());
        }
        return facts;
    }
}
